import { describe, expect, it } from "vitest";
import { csvOf } from "../../../src/views/sheets/csv.ts";
import { type Sheet, type SheetSubject, sheets } from "../../../src/views/sheets/index.ts";
import { partLines } from "../../../src/views/sheets/parts-lines.ts";
import { segmentsOf } from "../../../src/views/sheets/svg-path.ts";
import { durationText, massText } from "../../../src/views/sheets/words.ts";
import { standoff } from "../../../src/workbench/standoff.ts";
import { wordsOf } from "./boxes.ts";
import { exampleSubject, examples } from "./subjects.ts";

const setting = { paper: "a4", lengths: "mm", date: "2026-01-31" } as const;
const textOf = (id: string, subject: SheetSubject): string =>
  (sheets.find((sheet) => sheet.id === id) as Sheet)
    .lay(subject, setting)
    .flatMap((page) => wordsOf(page).map(({ text }) => text))
    .join("\n");

describe("winding sheet", () => {
  it("has length, mass and resistance of the wire", () => {
    const text = textOf("winding-sheet", exampleSubject("inkwell"));
    // independent, by hand: 1150 turns of π·(110 + 0.335) mm = 398.62 m; 0.3 mm copper weighs 0.6333 g/m: 252.5 g; and has
    // 17.241 nΩ·m / 0.070686 mm² = 0.24391 Ω/m at 20 °C (IEC 60028): 97.23 Ω
    expect(text).toContain("398.6\u00a0m");
    expect(text).toMatch(/25[23]\u00a0g/);
    expect(text).toContain("97.23\u00a0Ω");
    // IEC 60028: 0.393 % a kelvin at 20 °C: at 30 °C 101.05 Ω, at 10 °C 93.41 Ω
    expect(text).toContain("93.41\u00a0Ω");
    expect(text).toMatch(/\n101(\.\d)?\u00a0Ω/);
    // 1150 turns at 60 a minute
    expect(text).toContain("38\u00a0min, 19\u00a0min, 10\u00a0min");
    // 0.4 mm in coats of 0.1 mm
    expect(text).toContain("4 coats");
    // 402 mm / 1150
    expect(text).toContain("0.3496\u00a0mm");
  });

  it("marks the former so that every mark is a whole count of turns from the lower end", () => {
    const rows =
      (sheets.find(({ id }) => id === "winding-sheet") as Sheet).table?.(exampleSubject("belfry"), setting) ?? [];
    for (const [turn = "", at = ""] of rows.slice(1))
      expect(Math.abs(Number(at) - (Number(turn) * 820) / 1420)).toBeLessThanOrEqual(0.05 + 1e-9);
    expect(rows.at(-1)?.[0]).toBe("1420");
  });
});

describe("parts list", () => {
  // law: what is asked for is more than what the prediction puts on it, for each margin that is named
  it.each(examples)("asks of the parts of %s more than they bear", (name) => {
    const subject = exampleSubject(name);
    const lines = partLines(subject, setting);
    const most = (id: string) =>
      Math.max(subject.study.figures.get(id)?.value ?? 0, subject.atLimits?.figures.get(id)?.value ?? 0);
    const asked = (part: string) => lines.find((line) => line.part.startsWith(part))?.ask ?? "";
    const volts = (text: string) => {
      const [, value = "0", kilo] = /([\d.]+)\s(k?)V/.exec(text) ?? [];
      return Number(value) * (kilo ? 1000 : 1);
    };
    expect(volts(asked("film capacitor")) / most("bank.voltageEach")).toBeCloseTo(1 / 0.7, 1);
    expect(volts(asked("switch")) / most("bus.peakVoltage")).toBeCloseTo(1 / 0.7, 1);
    expect(volts(asked("bus capacitor")) / most("bus.voltageEach")).toBeCloseTo(1 / 0.95, 1);
    const fuse = Number(/^([\d.]+)/.exec(asked("fuse"))?.[1]);
    const milli = /^[\d.]+\smA/.test(asked("fuse")) ? 1e-3 : 1;
    expect(fuse * milli).toBeGreaterThanOrEqual(most("mains.currentRms") / 0.75);
  });

  it("counts what the file counts", () => {
    const lines = partLines(exampleSubject("belfry"), setting);
    const count = (part: string) => lines.find((line) => line.part === part)?.count;
    // 4 in series × 6 side by side; full bridge; doubler with 2 side by side in each half
    expect(count("film capacitor, pulse type")).toBe(24);
    expect(count("switch, IGBT with diode")).toBe(4);
    expect(count("bus capacitor")).toBe(4);
    expect(count("bleeder")).toBe(2);
    for (const line of lines) expect(line.why.length).toBeGreaterThan(10);
  });

  it("has one row of the table for each part", () => {
    const rows =
      (sheets.find(({ id }) => id === "parts-list") as Sheet).table?.(exampleSubject("inkwell"), setting) ?? [];
    expect(rows).toHaveLength(partLines(exampleSubject("inkwell"), setting).length + 1);
    for (const row of rows) expect(row).toHaveLength(6);
  });
});

describe("cautions", () => {
  // law (reading test): each of them on the sheet that people stand by, and on the bring-up sheet
  it.each(examples)("stand on the show-day sheet of %s", (name) => {
    const text = textOf("show-day", exampleSubject(name));
    for (const word of [
      /pacemaker/i,
      /hearing aid/i,
      /ozone/i,
      /fire/i,
      /children/i,
      /smoke detector/i,
      /radio/i,
      /first aid/i,
      /second person/i,
    ])
      expect(text).toMatch(word);
    expect(text).toContain("Nothing on this sheet is a permission");
    const bringUp = textOf("bring-up", exampleSubject(name));
    expect(bringUp).toContain("can kill");
    expect(bringUp).toContain("Never work alone");
    expect(textOf("data-plate", exampleSubject(name))).toContain("no permission");
  });

  it("round distances of the show up, never down", () => {
    for (const name of examples) {
      const subject = exampleSubject(name);
      const text = textOf("show-day", subject);
      const lines = text.split("\n");
      const at = lines.findIndex((line) => line.startsWith("line for bystanders"));
      const laid = Number.parseFloat(lines[at + 1] ?? "0");
      const { figures } = standoffOf(subject);
      const line = figures.get("standoff.audience");
      const most = line?.high ?? line?.value ?? Number.POSITIVE_INFINITY;
      expect(laid).toBeGreaterThanOrEqual(most - 1e-9);
      expect(laid).toBeLessThan(most + 0.1 + 1e-9);
    }
  });
});

function standoffOf(subject: SheetSubject) {
  return standoff({ coil: subject.coil, solution: subject.solution, bursts: subject });
}

describe("words and rows", () => {
  it("write masses and times as people say them", () => {
    expect(massText(0.2525, { lengths: "mm" })).toBe("253\u00a0g");
    expect(massText(1.5712, { lengths: "mm" })).toBe("1.57\u00a0kg");
    // 1 lb is 0.45359237 kg
    expect(massText(0.45359237 * 2, { lengths: "in" })).toBe("2\u00a0lb");
    expect(durationText(59)).toBe("1\u00a0min");
    expect(durationText(3780)).toBe("1\u00a0h 03\u00a0min");
  });

  // published: RFC 4180, section 2: fields with commas, quotes and line breaks are quoted, quotes doubled
  it("quote what a table would break on, and what a spreadsheet would run", () => {
    expect(
      csvOf([
        ["a", "b,c"],
        ['say "x"', "=1+1"],
      ]),
    ).toBe('a,"b,c"\r\n"say ""x""",\'=1+1\r\n');
  });
});

describe("paths of the circuit diagram", () => {
  // law: an arc of SVG ends where it says, and its middle lies a radius from its centre
  it("become curves that stay on their circle", () => {
    const half = segmentsOf("M10 20a6 6 0 0 1 0 12");
    const last = half.at(-1);
    expect(last?.kind === "curve" && last.to).toEqual({ x: expect.closeTo(10, 9), y: expect.closeTo(32, 9) });
    const middle = half[half.length / 2] ?? half[2];
    // sweep 1 from top to bottom runs clockwise: over the right
    expect(
      half.some((one) => one.kind === "curve" && Math.abs(one.to.x - 16) < 1e-6 && Math.abs(one.to.y - 26) < 1e-6),
    ).toBe(true);
    expect(middle).toBeDefined();
    expect(() => segmentsOf("M0 0Q1 1 2 2")).toThrow(RangeError);
  });
});
