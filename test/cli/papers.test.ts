import { beforeAll, describe, expect, it } from "vitest";
import { run } from "../../src/cli/run.ts";
import { hazards } from "../../src/description/hazards.ts";
import { exampleText } from "../views/coil-of-example.ts";
import { type MemoryIo, memoryIo } from "./memory-io.ts";

const thimble = exampleText("thimble");
const shown = `${thimble}\nshow: { acknowledged: [ ${Object.keys(hazards).join(", ")} ] }\n`;

async function papers(text: string, ...options: readonly string[]): Promise<{ code: number; io: MemoryIo }> {
  const io = memoryIo({ "thimble.yaml": text });
  const code = await run(["papers", "thimble.yaml", "--out", "bench/", ...options], io);
  return { code, io };
}
const made = ({ files }: MemoryIo) => [...files.keys()].filter((name) => name !== "thimble.yaml");

// law: what is asked for is there, begins as its format does, and what is not there has its reason in words
describe("coilwright papers", () => {
  let all: { code: number; io: MemoryIo };
  beforeAll(async () => {
    all = await papers(thimble);
  }, 60_000);

  it("writes every sheet of the coil, in every format that it has", () => {
    const names = made(all.io);
    for (const name of [
      "bench/data-plate.pdf",
      "bench/winding-sheet.pdf",
      "bench/winding-sheet.csv",
      "bench/former-strip.dxf",
      "bench/former-ends-outline.svg",
      "bench/printed-primary-1.svg",
      "bench/printed-primary-2.svg",
      "bench/printed-primary.dxf",
      "bench/parts-list.csv",
      "bench/schematic.svg",
      "bench/bring-up.pdf",
    ])
      expect(names).toContain(name);
    for (const [name, text] of all.io.files) {
      if (name.endsWith(".pdf")) expect(text).toMatch(/^%PDF-1\.7\n[\s\S]*%%EOF\n$/);
      if (name.endsWith(".svg")) expect(text).toMatch(/^<!-- Coilwright papers -->\n<svg [\s\S]*<\/svg>\n$/);
      if (name.endsWith(".dxf")) expect(text).toMatch(/^999\r\nCoilwright papers\r\n[\s\S]* {2}0\r\nEOF\r\n$/);
    }
  });

  it("says what it did not write, and why", () => {
    expect(all.io.printed.out).toContain("primary-plan: the primary is printed: its own sheet has it");
    expect(all.io.printed.out).toContain("No sheet is a permission");
  });

  it("holds the show-day sheet back until each hazard is acknowledged by name", async () => {
    expect(made(all.io)).not.toContain("bench/show-day.pdf");
    expect(all.code).toBe(1);
    expect(all.io.printed.out).toContain("hazard arc is not acknowledged");
    const almost = shown.replace("arc, ", "");
    const blocked = await papers(almost, "--sheets", "show-day", "--format", "svg", "--json");
    expect(blocked.code).toBe(1);
    const { findings, written } = JSON.parse(blocked.io.printed.out);
    expect(written).toEqual([]);
    expect(
      findings.map(({ severity, what }: { severity: string; what: string }) => [severity, what.split(":")[0]]),
    ).toEqual([["stop", "hazard arc is not acknowledged"]]);
    const printed = await papers(shown, "--sheets", "show-day", "--format", "svg");
    expect(made(printed.io).length).toBeGreaterThan(1);
  });

  it("takes paper, units, sheets and date", async () => {
    const { io } = await papers(
      thimble,
      ...[
        "--sheets",
        "winding-sheet",
        "--paper",
        "letter",
        "--units",
        "inch",
        "--format",
        "svg,csv",
        "--date",
        "2027-03-04",
      ],
    );
    expect(made(io)).toEqual(["bench/winding-sheet.svg", "bench/winding-sheet.csv"]);
    const svg = io.files.get("bench/winding-sheet.svg") ?? "";
    expect(svg).toContain('width="215.9mm" height="279.4mm"');
    expect(svg).toContain(">2027-03-04<");
    // 520 turns on 126 mm: 4.961 in
    expect(svg).toContain(">4.961\u00a0in<");
    expect(io.files.get("bench/winding-sheet.csv")?.split("\r\n").at(-2)).toBe("520,4.961");
  });

  it.each([
    ["--paper", "a3", "--paper a3: expected one of a4, letter"],
    ["--units", "ells", "--units ells: expected one of metric, inch"],
    ["--format", "pdf,png", "--format png: expected one of pdf, svg, dxf, csv"],
    ["--sheets", "windings", "--sheets windings: expected one of data-plate, winding-sheet"],
    ["--date", "2026-02-30", "--date 2026-02-30: expected a day such as 2026-01-31"],
    ["--sheets", "primary-plan", "nothing to write: primary-plan: the primary is printed"],
  ])("answers %s %s in words", async (option, value, words) => {
    const { code, io } = await papers(thimble, option, value);
    expect(code).toBe(2);
    expect(io.printed.err).toContain(words);
  });

  it("leaves a file alone that it did not make", async () => {
    const io = memoryIo({ "thimble.yaml": thimble, "bench/schematic.svg": "<svg>mine</svg>" });
    const code = await run(
      ["papers", "thimble.yaml", "--out", "bench", "--sheets", "schematic", "--format", "svg"],
      io,
    );
    expect(code).toBe(2);
    expect(io.files.get("bench/schematic.svg")).toBe("<svg>mine</svg>");
  });

  it("prints the findings of a text that is no coil", async () => {
    const { code, io } = await papers("coilwright: 1\n");
    expect(code).toBe(2);
    expect(made(io)).toEqual([]);
  });
});

const stories = [
  "rectifier",
  "half-cycle",
  "energy-see-saw",
  "two-pendulums",
  "approach",
  "train-spectrum",
  "skin-depth",
];

// law: as many files as pictures, themes and frames; each stands alone, and a round begins where it ends
describe("coilwright papers --pictures", () => {
  it("writes each picture as a still in both themes, and no sheet", async () => {
    const { io } = await papers(shown, "--pictures");
    expect(made(io)).toEqual(
      stories.flatMap((id) => [`bench/picture-${id}-paper.svg`, `bench/picture-${id}-hall.svg`]),
    );
    for (const name of made(io)) {
      const text = io.files.get(name) ?? "";
      expect(text).toMatch(/^<!-- Coilwright picture -->\n<svg [\s\S]*<\/svg>\n$/);
      expect(text).toContain("@font-face");
      // nothing is fetched from anywhere
      expect(text.replace("http://www.w3.org/2000/svg", "")).not.toMatch(/https?:/);
      expect(text).not.toMatch(/NaN|Infinity|undefined/);
    }
    expect(io.files.get("bench/picture-rectifier-paper.svg")).not.toBe(
      io.files.get("bench/picture-rectifier-hall.svg"),
    );
    expect(io.printed.out).toContain("no picture is a permission");
  });

  it("writes one round as a numbered series, and lists it in one line", async () => {
    const { io } = await papers(thimble, "--pictures", "--frames", "4");
    const names = made(io);
    expect(names.length).toBe(stories.length * 2 * 4);
    expect(names.slice(0, 4)).toEqual([1, 2, 3, 4].map((n) => `bench/picture-rectifier-paper-00${n}.svg`));
    const frames = names.filter((name) => name.includes("two-pendulums-hall")).map((name) => io.files.get(name));
    expect(new Set(frames).size).toBe(4);
    expect(io.printed.out).toContain("bench/picture-rectifier-paper-001.svg … picture-rectifier-paper-004.svg\n");
  });

  it("writes sheets beside them where they are named, and says both as JSON", async () => {
    const { io } = await papers(thimble, "--pictures", "--sheets", "data-plate", "--format", "svg", "--json");
    const { written, without } = JSON.parse(io.printed.out);
    expect(written[0]).toBe("bench/data-plate.svg");
    expect(written.length).toBe(15);
    expect(without).toEqual([]);
  });

  it("says what a picture would take where the file lacks it", async () => {
    const { io } = await papers(thimble.replace(/\nsupply:[\s\S]*?\n(?=\S)/, "\n"), "--pictures");
    expect(io.printed.out).toContain("picture-rectifier: it takes a supply and a burst that loads it");
  });

  it.each([
    [["--frames", "60"], "--frames is of the pictures"],
    [["--pictures", "--frames", "1"], "--frames 1: expected a count from 2 to 600"],
    [["--pictures", "--frames", "ten"], "--frames ten: expected a count"],
  ])("answers %j in words", async (options, words) => {
    const { code, io } = await papers(thimble, ...options);
    expect(code).toBe(2);
    expect(io.printed.err).toContain(words);
  });
});
