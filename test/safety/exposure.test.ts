import { describe, expect, it } from "vitest";
import { referenceLevels } from "../../src/safety/index.ts";
import { entry, numberOf } from "./reference.ts";

const level = (frequency: number, source: string, field: string, who: string) =>
  referenceLevels(frequency).find((one) => one.id === `${source}.${field}.${who}`)?.level;
const law = (quantity: string, conditions = "") =>
  entry("safety", quantity, conditions).value as { c: number; p: number };

describe("reference levels", () => {
  // published: ICNIRP 2010, Health Physics 99:818, tables 3 and 4 (3 kHz to 10 MHz), as reproduced in a handbook, tables 7.3 and 7.4
  it.each([3e3, 50e3, 100e3, 250e3, 1e6, 10e6])("for nerves are those of ICNIRP 2010 at %d Hz", (frequency) => {
    expect(level(frequency, "icnirp-2010", "electric", "public")).toBe(
      numberOf("safety", "E reference level, general public"),
    );
    expect(level(frequency, "icnirp-2010", "electric", "occupational")).toBe(
      numberOf("safety", "E reference level, occupational"),
    );
    // 27 µT and 100 µT are printed beside 21 A/m and 80 A/m: one is the other to the rounding of the table, 3 %
    const tesla = 0.4 * Math.PI;
    for (const [who, quantity] of [
      ["public", "B reference level, general public"],
      ["occupational", "B reference level, occupational"],
    ] as const) {
      const microtesla = level(frequency, "icnirp-2010", "magnetic", who)! * tesla;
      expect(Math.abs(microtesla / numberOf("safety", quantity) - 1)).toBeLessThan(0.03);
    }
  });

  // published: ICNIRP 2020, Health Physics 118:483, table 6 (local, 6 min), as reproduced in a handbook, table 7.8
  it.each([0.1e6, 0.2e6, 0.47e6, 1e6, 7e6, 30e6])(
    "for heat of a limb are those of ICNIRP 2020 at %d Hz",
    (frequency) => {
      const megahertz = frequency / 1e6;
      for (const [who, words] of [
        ["public", "general public"],
        ["occupational", "occupational"],
      ] as const) {
        const [electric, magnetic] = [law(`E local, ${words}`), law(`H local, ${words}`)];
        expect(level(frequency, "icnirp-2020-local", "electric", who)).toBeCloseTo(
          electric.c * megahertz ** electric.p,
          6,
        );
        expect(level(frequency, "icnirp-2020-local", "magnetic", who)).toBeCloseTo(
          magnetic.c * megahertz ** magnetic.p,
          6,
        );
      }
    },
  );

  // published: the same at 200 kHz, printed beside the formulas
  it("are 2070 V/m and 24.5 A/m for the public at 200 kHz, limb, 6 min", () => {
    expect(level(200e3, "icnirp-2020-local", "electric", "public")).toBeCloseTo(
      numberOf("safety", "E local public level at 200 kHz"),
      1,
    );
    expect(level(200e3, "icnirp-2020-local", "magnetic", "public")).toBeCloseTo(
      numberOf("safety", "H local public level at 200 kHz"),
      6,
    );
  });

  // published, from memory: ICNIRP 2020, table 5 (whole body, 30 min)
  it("of the whole body are marked as from memory", () => {
    const [atWork, anybody] = entry("safety", "E whole body").value as [number, number];
    expect(level(1e6, "icnirp-2020-whole", "electric", "public")).toBe(anybody);
    expect(level(1e6, "icnirp-2020-whole", "electric", "occupational")).toBe(atWork);
    const [h, hPublic] = entry("safety", "H whole body").value as [number, number];
    expect([
      level(1e6, "icnirp-2020-whole", "magnetic", "occupational"),
      level(1e6, "icnirp-2020-whole", "magnetic", "public"),
    ]).toEqual([h, hPublic]);
  });

  // law: the documents' own ranges; nothing is said outside them
  it("end where the documents end", () => {
    expect(referenceLevels(2.9e3)).toEqual([]);
    expect(referenceLevels(99e3).map(({ source }) => source)).toEqual(Array(4).fill("icnirp-2010"));
    expect(referenceLevels(150e3)).toHaveLength(12);
    expect(referenceLevels(11e6).some(({ source }) => source === "icnirp-2010")).toBe(false);
    expect(referenceLevels(31e6)).toEqual([]);
    expect(() => referenceLevels(0)).toThrow("frequency must be positive");
  });
});
