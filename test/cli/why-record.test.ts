import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sources } from "../../src/catalogue/sources.ts";
import { run } from "../../src/cli/run.ts";
import { benchRules } from "../../src/findings/bench-rules.ts";
import { writeRecord } from "../../src/readers/capture.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import type { TimeRecord } from "../../src/workbench/match.ts";
import { benchRecord, exampleText } from "../workbench/match-bench.ts";
import { memoryIo } from "./memory-io.ts";

const text = exampleText("inkwell");
const { record } = benchRecord(readCoil(text).coil!, { bus: 100 }) as TimeRecord;
const files = { "coil.yaml": text, "low.json": writeRecord(record) };
const asked = async (id: string, ...rest: string[]) => {
  const io = memoryIo(files);
  const code = await run(["why", "coil.yaml", id, ...rest], io);
  return { code, ...io.printed };
};
const said = ["--capture", "low.json", "--bus", "100V", "--state", "low"];

describe("coilwright why, asked about a record", () => {
  it("explains a fitted figure by its twin, what was read and the numbers that were told", async () => {
    const { code, out } = await asked("match.coupling.k", ...said, "--json");
    expect(code).toBe(0);
    const { inputs, source, note, formula } = JSON.parse(out) as {
      inputs: { id?: string; path?: string }[];
      source: { key: string };
      note: string;
      formula: string;
    };
    expect(formula.length).toBeGreaterThan(10);
    expect(inputs.map((each) => each.id)).toEqual(
      expect.arrayContaining(["coupling.k", "capture.carrier", "capture.q"]),
    );
    expect(source.key).toBe("bench-match");
    expect(note).toMatch(/drawn .*χ²/);
  }, 60_000);

  it("explains what a record shows by the channel that it was read from, without a fit", async () => {
    for (const id of ["capture.carrier", "capture.q", "capture.onTime"]) {
      const { code, out } = await asked(id, ...said);
      expect(code).toBe(0);
      expect(out).toContain("low.json");
      expect(out).toMatch(/how +\S/);
      for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
    }
  }, 30_000);

  it("takes what is said of a table as match does", async () => {
    const rows = Array.from({ length: 4000 }, (_, n) => {
      const t = (n - 400) * 0.1;
      return `${t.toFixed(1)},${t < 0 ? 0 : (Math.exp(-t / 150) * Math.sin(1.6 * t)).toFixed(4)}`;
    });
    const io = memoryIo({ ...files, "table.csv": ["a,b", ...rows].join("\n") });
    const table = ["--capture", "table.csv", "--column", "1=use:time,unit:us", "--column", "2=unit:V"];
    expect(await run(["why", "coil.yaml", "capture.q", ...table, "--json"], io)).toBe(0);
    // law: Q of exp(−t/τ)·sin(ωt) is ωτ/2
    const { value } = JSON.parse(io.printed.out) as { value: number };
    expect(value / 120).toBeCloseTo(1, 2);
  }, 30_000);

  it("asks for the record where none is named", async () => {
    const { code, err } = await asked("match.coupling.k");
    expect(code).toBe(2);
    expect(err).toContain("--capture");
  });

  it("explains findings about records and fits, and has words for every one that the source can make", async () => {
    const { code, out } = await asked("match-poor");
    expect(code).toBe(0);
    expect(out).toContain("χ²");
    // law: each id that stands as a rule in the source of readers, readings and fits has its entry
    const known = new Set(benchRules.map(({ id }) => id));
    const folders = ["src/readers/capture", "src/matching/reading", "src/workbench", "src/cli/commands"];
    const made = folders.flatMap((folder) =>
      readdirSync(new URL(`../../${folder}`, import.meta.url)).flatMap((name) => {
        const source = readFileSync(new URL(`../../${folder}/${name}`, import.meta.url), "utf8");
        return [...source.matchAll(/"((?:record|capture|match)-[a-z]+(?:-[a-z]+)*)"/g)].map(([, id]) => id!);
      }),
    );
    expect(made.length).toBeGreaterThan(30);
    expect([...new Set(made)].filter((id) => !known.has(id) && !sources.has(id))).toEqual([]);
  });
});
