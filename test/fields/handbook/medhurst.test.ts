import { describe, expect, it } from "vitest";
import { medhurstCapacitance } from "../../../src/fields/handbook/medhurst-capacitance.ts";
import { medhurstResistanceRatio } from "../../../src/fields/handbook/medhurst-resistance.ts";
import { relativeError } from "../../numerics/within.ts";
import reference from "../../reference/medhurst.json" with { type: "json" };

const named = (quantity: string) => reference.entries.filter((entry) => entry.quantity === quantity);

describe("medhurstCapacitance", () => {
  // published: Medhurst 1947, table of H, read in a secondary source (test/reference/medhurst.json); the table itself must come back exactly
  it.each(named("medhurst.H"))("returns the table at $inputs", ({ inputs, value }) => {
    const ratio = (inputs as { lengthOverDiameter: number }).lengthOverDiameter;
    expect(relativeError(medhurstCapacitance({ length: ratio, diameter: 1 }), value as number)).toBeLessThan(1e-12);
  });

  // law: between two entries it lies between them, and it scales with length
  it("stays between its neighbours and scales", () => {
    const found = medhurstCapacitance({ length: 0.42, diameter: 0.11 });
    expect(found).toBeGreaterThan(67e-12 * 0.11);
    expect(found).toBeLessThan(72e-12 * 0.11);
    expect(relativeError(medhurstCapacitance({ length: 4.2, diameter: 1.1 }), 10 * found)).toBeLessThan(1e-13);
  });

  it.each([0.05, 60, Number.NaN])("refuses l/D = %d", (ratio) => {
    expect(() => medhurstCapacitance({ length: ratio, diameter: 1 })).toThrow(/0\.1 … 50/);
  });
});

describe("medhurstResistanceRatio", () => {
  // published: Medhurst 1947, table of resistance ratios, read in secondary sources (test/reference/medhurst.json). Two cells carry a
  // conflict between copies (1.26 or 1.20 at l/D 0, d/s 0.4; 2.37 or 2.27 at 10, 0.7); the larger, which fits the neighbours, is used in both
  it.each(named("medhurst.phiRow"))("returns the row $inputs.lengthOverDiameter", ({ inputs, value }) => {
    const { lengthOverDiameter, wireDiameterOverPitch } = inputs as {
      lengthOverDiameter: string;
      wireDiameterOverPitch: number[];
    };
    // The first and last rows are limits; a very short and a very long coil stand for them.
    const ratio = { "0": 1e-9, inf: 1e9 }[lengthOverDiameter] ?? Number(lengthOverDiameter);
    for (const [i, fill] of wireDiameterOverPitch.entries()) {
      const found = medhurstResistanceRatio({ length: ratio, diameter: 1, wireDiameter: fill, pitch: 1 });
      expect(relativeError(found, (value as number[])[i]!)).toBeLessThan(1e-7);
    }
  });

  // law: more wire in the pitch means more loss, everywhere between the entries
  it("rises with wire over pitch", () => {
    for (const length of [2, 14, 28, 60, 140, 240, 800]) {
      const at = (wireDiameter: number) => medhurstResistanceRatio({ length, diameter: 20, wireDiameter, pitch: 20 });
      for (let wire = 3; wire <= 20; wire++) expect(at(wire)).toBeGreaterThan(at(wire - 1));
    }
  });

  it.each([0.05, 1.2])("refuses wire/pitch %d", (fill) => {
    expect(() => medhurstResistanceRatio({ length: 1, diameter: 1, wireDiameter: fill, pitch: 1 })).toThrow(/0\.1 … 1/);
  });
});
