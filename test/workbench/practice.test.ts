import { describe, expect, it } from "vitest";
import { madeUpMark } from "../../src/description/record.ts";
import { readCapture } from "../../src/readers/capture.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { match } from "../../src/workbench/match.ts";
import { timeRecord } from "../../src/workbench/match-capture.ts";
import { practiceRecord } from "../../src/workbench/practice.ts";
import { solve } from "../../src/workbench/solve.ts";
import { exampleText } from "./match-bench.ts";

const file = readCoil(exampleText("inkwell"));
const coil = file.coil!;
const bytes = (text: string) => new TextEncoder().encode(text);

describe("a practice record", () => {
  it("is read as any other, points at what was changed, and is never adopted", () => {
    const made = practiceRecord(coil, { number: 1, solve });
    expect(made.answer).toBe("the tank capacitor was 8 % low");
    const { record } = readCapture(bytes(made.csv), { name: made.name });
    expect(record?.madeUp).toBe(true);
    expect(record?.channels.map(({ role }) => role)).toEqual(["primaryCurrent", "pickupLoop", "gate"]);
    const found = match({ file, records: [timeRecord(record!, made)], solve });
    expect(found.taken).toBe("tank-capacitor");
    expect(found.adopt).toEqual([]);
    expect(found.findings.map(({ rule }) => rule)).toContain("match-made-up");
  }, 60_000);

  it("is the same for the same number, and another for the next", () => {
    const texts = [1, 1, 2].map((number) => practiceRecord(coil, { number, solve }).csv);
    expect(texts[0]).toBe(texts[1]);
    expect(texts[0]).not.toBe(texts[2]);
  });

  it("says nothing was changed where the coil has no such key", () => {
    const { dissipation: _, ...bank } = coil.tank!.bank;
    const without = { ...coil, tank: { ...coil.tank!, bank } };
    expect(practiceRecord(without, { number: 6, solve }).answer).toMatch(/nothing was changed/);
  });

  it("is refused for a coil that nothing drives", () => {
    const { bridge: _, ...undriven } = coil;
    expect(() => practiceRecord(undriven, { number: 1, solve })).toThrow(RangeError);
  });

  it("is known by its header alone: the words among the rows or in a name make no record a made-up one", () => {
    const rows = Array.from({ length: 60 }, (_, n) => `${n * 1e-7},${Math.sin(n)}`).join("\n");
    expect(readCapture(bytes(`time (s),loop (V)\n${rows}\n`), { name: madeUpMark }).record?.madeUp).toBeUndefined();
    expect(readCapture(bytes(`# ${madeUpMark}\ntime (s),loop (V)\n${rows}\n`)).record?.madeUp).toBe(true);
  });
});
