import { describe, expect, it } from "vitest";
import { magneticConstant } from "../../src/fields/vacuum.ts";
import {
  copperResistivity,
  copperResistivity20,
  dcResistance,
  skinDepth,
  skinResistanceRatio,
  transverseLossFactor,
} from "../../src/fields/wire-loss.ts";
import { diameterOfGauge } from "../../src/units/wire-gauge.ts";
import { relativeError } from "../numerics/within.ts";
import independent from "../reference/magnetics.json" with { type: "json" };
import reference from "../reference/round-wire.json" with { type: "json" };

const named = (quantity: string) => reference.entries.filter((entry) => entry.quantity === quantity);

describe("copperResistivity", () => {
  // published: IEC 60028, 1/58 Ω·mm²/m and 0.00393 per kelvin at 20 °C (from memory; test/reference/round-wire.json)
  it("is the standard's value and slope at 20 °C", () => {
    expect(copperResistivity(293.15)).toBe(named("copper.resistivity20")[0]!.value);
    expect(relativeError(copperResistivity20, 1e-6 / 58)).toBeLessThan(3e-5);
    const slope = (copperResistivity(294.15) - copperResistivity(293.15)) / copperResistivity(293.15);
    expect(relativeError(slope, named("copper.temperatureCoefficient20")[0]!.value)).toBeLessThan(1e-9);
  });

  it("refuses temperatures of other worlds, such as 20 meant in °C", () => {
    expect(() => copperResistivity(20)).toThrow(/200 … 500 K, got 20 K/);
  });
});

describe("dcResistance", () => {
  // independent: B258 diameters and copper at 20 °C, 30 digits; published: handbook wire table, three digits (test/reference/round-wire.json)
  it.each([...named("awg"), ...named("awg.published")])("meets the wire table, $quantity $inputs", (entry) => {
    const diameter = diameterOfGauge((entry.inputs as { gauge: number }).gauge);
    const found = dcResistance({ diameter, length: 1, resistivity: copperResistivity20 });
    expect(relativeError(diameter, entry.value)).toBeLessThan(entry.tolerance_rel);
    const tolerance = entry.resistance_tolerance_rel ?? 1e-12;
    expect(relativeError(found, entry.resistancePerMetre20!)).toBeLessThan(tolerance);
  });

  it("refuses a wire without diameter", () => {
    expect(() => dcResistance({ diameter: 0, length: 1, resistivity: 1e-8 })).toThrow(/positive diameter/);
  });
});

describe("skinDepth", () => {
  // independent: √(ρ/(π·f·µ0)) at 30 digits; 1e-9 covers the two values of µ0 in use (test/reference/round-wire.json)
  it.each(named("skinDepth.copper"))("meets copper at $inputs", ({ inputs, value }) => {
    expect(relativeError(skinDepth(inputs as { frequency: number; resistivity: number }), value)).toBeLessThan(1e-9);
  });

  it("refuses direct current", () =>
    expect(() => skinDepth({ frequency: 0, resistivity: 1e-8 })).toThrow(/positive frequency/));
});

describe("skinResistanceRatio", () => {
  // independent: Bessel functions at 30 digits, checked there by the Joule integral. published: skin-effect table of Circular 74 and
  // Neher & McGrath's table III, to their digits (test/reference/round-wire.json)
  const cases = [...named("roundWire.acResistanceRatio"), ...named("roundWire.acResistanceRatio.published")];
  it.each(cases)("meets $quantity at $inputs", ({ inputs, value, tolerance_rel }) => {
    const found = skinResistanceRatio({
      diameter: (inputs as { diameterOverSkinDepth: number }).diameterOverSkinDepth,
      skinDepth: 1,
    });
    expect(relativeError(found, value)).toBeLessThan(tolerance_rel);
  });

  it("refuses a wire without diameter", () => {
    expect(() => skinResistanceRatio({ diameter: 0, skinDepth: 1 })).toThrow(/positive diameter and skin depth/);
  });
});

describe("transverseLossFactor", () => {
  // independent: J2 and J0 themselves by mpmath (test/reference/magnetics.py); the program uses J0/J1 only
  it.each(independent.skinRatio)("equals π·ω·µ0·a²·|Im J2/J0| at x = $x", ({ x, moment }) => {
    const [diameter, frequency] = [1e-3, 2e5];
    const found = transverseLossFactor({ diameter, skinDepth: (Math.SQRT1_2 * diameter) / x, frequency });
    const expected = Math.PI * 2 * Math.PI * frequency * magneticConstant * (diameter / 2) ** 2 * moment;
    expect(relativeError(found, expected)).toBeLessThan(1e-14);
  });

  // law: thin wire, P' = π·ω²·B²·a⁴/(8ρ): eddy currents too weak to change the field
  it("becomes the loss of weak eddy currents in thin wire", () => {
    const [diameter, frequency, resistivity] = [1e-5, 1e5, 1.7241e-8];
    const found = transverseLossFactor({ diameter, skinDepth: skinDepth({ frequency, resistivity }), frequency });
    const omega = 2 * Math.PI * frequency;
    expect(
      relativeError(found, (Math.PI * omega ** 2 * magneticConstant ** 2 * (diameter / 2) ** 4) / (8 * resistivity)),
    ).toBeLessThan(1e-6);
  });

  // law: thick wire, surface field 2H·sin θ on a plane of surface resistance ρ/δ: P' = 2π·a·(ρ/δ)·H²; the rest is of order δ/a
  it("becomes the loss of twice the field on a plane in thick wire", () => {
    const [diameter, frequency, resistivity] = [0.2, 1e6, 1.7241e-8];
    const depth = skinDepth({ frequency, resistivity });
    const found = transverseLossFactor({ diameter, skinDepth: depth, frequency });
    expect(relativeError(found, (Math.PI * diameter * resistivity) / depth)).toBeLessThan(2 * (depth / diameter));
  });

  it("refuses direct current", () => {
    expect(() => transverseLossFactor({ diameter: 1e-3, skinDepth: 1e-4, frequency: 0 })).toThrow(
      /frequency must be positive/,
    );
  });
});
