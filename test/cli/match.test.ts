import { describe, expect, it } from "vitest";
import { run } from "../../src/cli/run.ts";
import { readLog } from "../../src/readers/bench-log.ts";
import { exampleText } from "../workbench/match-bench.ts";
import { memoryIo } from "./memory-io.ts";

/** Two resonances without power: |Σ 1/(1 + 2jQ(f/f0 − 1))|, the function that a sweep of a coupled pair draws near its poles. */
function sweepText({ lower, upper }: { lower: number; upper: number }): string {
  const rows = Array.from({ length: 161 }, (_, n) => {
    const f = 165e3 + n * 500;
    const part = (f0: number, q: number) => {
      const x = 2 * q * (f / f0 - 1);
      return { re: 1 / (1 + x * x), im: -x / (1 + x * x) };
    };
    const [a, b] = [part(lower, 90), part(upper, 110)];
    return `${f / 1e3},${(40 * Math.hypot(a.re + 0.7 * b.re, a.im + 0.7 * b.im)).toFixed(3)}`;
  });
  return `Frequency [kHz],Amplitude [mV]\n${rows.join("\n")}\n`;
}

describe("coilwright match", () => {
  const coil = exampleText("inkwell");

  it("reads the poles of a sweep without power and fits them", async () => {
    const [lower, upper] = [190.4e3, 226.9e3];
    const io = memoryIo({ "coil.yaml": coil, "sweep.csv": sweepText({ lower, upper }) });
    await run(["match", "coil.yaml", "sweep.csv", "--json"], io);
    const made = JSON.parse(io.printed.out) as {
      quantities: Record<string, { value: number; low: number; high: number; unit: string }>;
      captures: unknown[];
    };
    // independent: the frequencies that the sweep was drawn with
    const found = made.quantities["match.poles.lower"]!;
    expect(Math.abs(found.value / lower - 1)).toBeLessThan(2e-3);
    expect(found.low).toBeLessThan(lower);
    expect(found.high).toBeGreaterThan(lower);
    expect(Math.abs(made.quantities["match.poles.upper"]!.value / upper - 1)).toBeLessThan(2e-3);
    expect(made.captures).toHaveLength(1);
    expect(Object.keys(made)).toEqual(expect.arrayContaining(["findings", "explanations", "undetermined", "dialect"]));
  });

  it("makes up a record to practise on, says what was changed, and writes nothing", async () => {
    const io = memoryIo({ "coil.yaml": coil });
    await run(["match", "coil.yaml", "--practice", "2", "--adopt", "--log"], io);
    expect(io.printed.out).toContain("in this record the bus was twice what was said of it");
    expect(io.printed.out).toMatch(/Most likely: bus doubled/);
    expect(io.printed.err).toContain("nothing is adopted from this fit");
    expect(io.printed.err).toContain("nothing was logged");
    expect([...io.files.keys()]).toEqual(["coil.yaml"]);
    expect(io.files.get("coil.yaml")).toBe(coil);
    for (const words of [
      ["--practice", "0"],
      ["coil.yaml", "--practice", "1"],
    ])
      expect(await run(["match", "coil.yaml", ...words], memoryIo({ "coil.yaml": coil }))).toBe(2);
  }, 60_000);

  it("says what is wrong with a channel, a state or a file, and writes nothing", async () => {
    const files = { "coil.yaml": coil, "sweep.csv": sweepText({ lower: 190e3, upper: 227e3 }) };
    for (const [words, said] of [
      [["match", "coil.yaml", "nothing.csv"], "there is no file nothing.csv"],
      [["match", "coil.yaml", "sweep.csv", "--state", "warm"], "expected one of cold, near, low, full"],
      [["match", "coil.yaml", "sweep.csv", "--role", "1=aerial"], "expected one of pickupLoop"],
      [["match", "coil.yaml", "sweep.csv", "--bus", "loud"], "--bus loud"],
    ] as const) {
      const io = memoryIo(files);
      expect(await run(words, io)).toBe(2);
      expect(io.printed.err).toContain(said);
      expect(io.files.get("coil.yaml")).toBe(coil);
    }
  });

  it("shows no drawn value as a measured one where the records say nothing", async () => {
    const noise = Array.from({ length: 400 }, (_, n) => `${n * 1e-7},${Math.sin(n * n * 12.9898).toFixed(3)}`).join(
      "\n",
    );
    const io = memoryIo({ "coil.yaml": coil, "noise.csv": `Time [s],Loop [V]\n${noise}\n` });
    await run(["match", "coil.yaml", "noise.csv", "--json"], io);
    const { quantities } = JSON.parse(io.printed.out) as { quantities: Record<string, unknown> };
    expect(Object.keys(quantities).filter((id) => id.startsWith("match."))).toEqual([]);
  });

  it("adopts fitted values as measured, and leaves the rest of the file as it was", async () => {
    const io = memoryIo({ "coil.yaml": coil, "sweep.csv": sweepText({ lower: 193.5e3, upper: 228.4e3 }) });
    await run(["match", "coil.yaml", "sweep.csv", "--adopt"], io);
    const before = coil.split("\n");
    const after = io.files.get("coil.yaml")!.split("\n");
    const changed = after.filter((line, n) => line !== before[n]);
    // law: an edit changes the lines of its numbers alone, and says where they come from
    expect(after).toHaveLength(before.length);
    expect(changed.length).toBeGreaterThan(0);
    for (const line of changed) {
      expect(line).toMatch(/\(measured\)|tap:/);
      expect(line).toMatch(/# .*from 1 record, 2026-11-25: [\d.]+.*, (drawn|before) /);
    }
  });

  it("logs what was read, fitted and adopted beside the file, and refuses a file that is no log", async () => {
    const text = sweepText({ lower: 193.5e3, upper: 228.4e3 });
    const io = memoryIo({ "coil.yaml": coil, "sweep.csv": text });
    await run(["match", "coil.yaml", "sweep.csv", "--adopt", "--log"], io);
    const read = readLog(io.files.get("coil.bench.jsonl") ?? "");
    expect(read?.entries.map(({ kind, at }) => [kind, at])).toEqual([
      ["match", "2026-11-25T16:20:00Z"],
      ["adopted", "2026-11-25T16:20:00Z"],
    ]);
    const foreign = memoryIo({ "coil.yaml": coil, "sweep.csv": text, "coil.bench.jsonl": "my notes\n" });
    expect(await run(["match", "coil.yaml", "sweep.csv", "--log"], foreign)).toBe(2);
    expect(foreign.files.get("coil.bench.jsonl")).toBe("my notes\n");
    expect(foreign.printed.err).toMatch(/is no log of Coilwright/);
  });
});
