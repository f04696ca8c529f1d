import { describe, expect, it } from "vitest";
import { columns, cut, padded, paddedLeft, wrap } from "../../../src/views/text/wrap.ts";

describe("wrap", () => {
  // law: no line is wider than asked, and no word is lost
  it("keeps the width and every word", () => {
    const words = "a streamer of 432 mm loads the secondary and lowers its first mode by seven per cent of what it was";
    for (const width of [20, 33, 80]) {
      const wrapped = wrap(words, { width, first: "  ", indent: "     " });
      for (const line of wrapped.split("\n")) expect(columns(line)).toBeLessThanOrEqual(width);
      expect(wrapped.split(/\s+/).filter(Boolean).join(" ")).toBe(words);
    }
  });

  it("never parts a number from its unit", () => {
    const words = "it is driven for 40.0 µs at 100 kHz, or 3 % of the time, in 2 rooms";
    for (const width of [10, 14, 18, 22]) {
      const lines = wrap(words, { width }).split("\n");
      for (const line of lines) expect(line).not.toMatch(/(^| )(µs|kHz,|%)( |$)(?<!\d (µs|kHz,|%) ?)/);
      expect(lines.some((line) => line.includes("40.0 µs"))).toBe(true);
      expect(lines.some((line) => line.includes("100 kHz,"))).toBe(true);
    }
  });

  it("lets a word that is too long stand alone", () =>
    expect(wrap("aaaaaaaaaa b", { width: 5 })).toBe("aaaaaaaaaa\nb"));
});

describe("columns", () => {
  it("counts what the eye counts for the characters of the house", () => {
    expect(columns("Ω µ ± °")).toBe(7);
    expect(padded("Ω", 3)).toBe("Ω  ");
    expect(paddedLeft("µ", 3)).toBe("  µ");
    expect(cut("abcdef", 4)).toBe("abc…");
  });
});
