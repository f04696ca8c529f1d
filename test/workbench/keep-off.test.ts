/** Numbers that people rely on are never rounded to the careless side. law: rounding up. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { keepOff, waitFor } from "../../src/workbench/keep-off.ts";

const read = (words: string): number => Number.parseFloat(words.replaceAll("\u202f", ""));

describe("keepOff and waitFor", () => {
  it("never say less than the value, and not more than one step over it", () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 99, noNaN: true }), (distance) => {
        const said = read(keepOff(distance));
        expect(said).toBeGreaterThanOrEqual(distance - 1e-6);
        expect(said).toBeLessThan(distance + 0.1 + 1e-6);
      }),
    );
  });

  it("do so in half feet too", () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 99, noNaN: true }), (distance) => {
        const said = read(keepOff(distance, "in")) * 0.3048;
        expect(said).toBeGreaterThanOrEqual(distance - 1e-6);
        expect(said).toBeLessThan(distance + 0.1524 + 1e-6);
      }),
    );
  });

  it("go by the centimetre below a metre and by the inch below a yard: a small coil's reach and strike differ", () => {
    const metre = fc.double({ min: 0, max: 0.99, noNaN: true });
    const inMetres = (words: string) => read(words) * (/mm$/.test(words) ? 1e-3 : 1);
    fc.assert(
      fc.property(metre, (distance) => {
        const said = inMetres(keepOff(distance));
        expect(said).toBeGreaterThanOrEqual(distance - 1e-6);
        expect(said).toBeLessThan(distance + 0.01 + 1e-6);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.88, noNaN: true }), (distance) => {
        const said = read(keepOff(distance, "in")) * 0.0254;
        expect(said).toBeGreaterThanOrEqual(distance - 1e-6);
        expect(said).toBeLessThan(distance + 0.0254 + 1e-6);
      }),
    );
    expect([0.0994, 0.149, 0.995].map((one) => keepOff(one).replace(/\s/, " "))).toEqual(["100 mm", "150 mm", "1 m"]);
  });

  it("write 15.36 m as 15.4 m and 158.2 s as 159 s", () => {
    expect(keepOff(15.36)).toMatch(/^15\.4\sm$/);
    expect(waitFor(158.2)).toMatch(/^159\ss$/);
  });
});
