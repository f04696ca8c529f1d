import { describe, expect, it } from "vitest";
import { drawnSigns } from "../../../src/views/sheets/drawn-signs.ts";
import { boldWidths, regularWidths, unitsPerEm } from "../../../src/views/sheets/font-widths.ts";
import { fitted, settable, widthOf, wrapped } from "../../../src/views/sheets/measure.ts";
import { openWoff } from "../../../src/views/sheets/woff.ts";
import { fonts } from "./read-pdf.ts";

// independent: the advances in the font files themselves
describe("the table of advances", () => {
  it.each([
    ["regular", regularWidths],
    ["bold", boldWidths],
  ] as const)("is that of the %s font", async (face, table) => {
    const font = await openWoff(fonts[face]);
    expect(font.unitsPerEm).toBe(unitsPerEm);
    let count = 0;
    for (const [advance, characters] of table)
      for (const character of characters) {
        count++;
        expect([character, font.glyphs.get(character)?.advance]).toEqual([character, advance]);
      }
    expect(count).toBeGreaterThan(180);
  });

  // law: what the font has is set from the font
  it("holds no sign that is also drawn", async () => {
    const font = await openWoff(fonts.regular);
    for (const sign of Object.keys(drawnSigns).filter((one) => one !== "μ")) expect(font.glyphs.has(sign)).toBe(false);
  });

  it("has every sign that the sheets write", () => {
    expect(settable("Ω µ ± ° ² · − Δ π ≤ ≥ √ → × Ø … – δ")).toBe("Ω µ ± ° ² · − Δ π ≤ ≥ √ → × Ø … – δ");
    expect(settable("漢 5")).toBe("? 5");
  });

  it("refuses a file that is no font", async () => {
    await expect(openWoff(new Uint8Array(100))).rejects.toThrow("not a WOFF file");
  });
});

// law: no line is wider than its room, and no word is lost
describe("lines", () => {
  const style = { size: 0.003, face: "regular" } as const;
  it("break between words, and a word that is too long within itself", () => {
    const text = "the wire is 0.335 mm over its insulation WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW end";
    for (const width of [0.01, 0.02, 0.05, 0.1]) {
      const lines = wrapped(text, { width, ...style });
      for (const line of lines) expect(widthOf(line, style)).toBeLessThanOrEqual(width * (1 + 1e-9));
      expect(lines.join("").replace(/[\s\u00a0]/g, "")).toBe(text.replace(/\s/g, ""));
    }
  });

  it("keep a number with its unit", () => {
    for (const width of [0.03, 0.04, 0.05])
      for (const line of wrapped("over the insulation 0.335 mm and then 12 kV more", { width, ...style }))
        expect(line).not.toMatch(/\d$/);
  });

  it("shrink to fit, and are cut only below the least size", () => {
    const width = 0.04;
    const shrunk = fitted("a coil with a name of some length", { width, size: 0.003, least: 0.001, face: "bold" });
    expect(widthOf(shrunk.text, { ...shrunk, face: "bold" })).toBeLessThanOrEqual(width * (1 + 1e-9));
    expect(shrunk.text.endsWith("…")).toBe(false);
    const cut = fitted("W".repeat(200), { width, size: 0.003, least: 0.002, face: "bold" });
    expect(cut.text.endsWith("…")).toBe(true);
    expect(widthOf(cut.text, { ...cut, face: "bold" })).toBeLessThanOrEqual(width * (1 + 1e-9));
  });
});
