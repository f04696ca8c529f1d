import { describe, expect, it } from "vitest";
import { sphereCapacitance, torusCapacitance } from "../../../src/fields/handbook/isolated-capacitance.ts";
import { electricConstant } from "../../../src/fields/vacuum.ts";
import { relativeError } from "../../numerics/within.ts";
import reference from "../../reference/isolated-capacitance.json" with { type: "json" };

const named = (quantity: string) => reference.entries.filter((entry) => entry.quantity === quantity);
const ofRadii = (majorRadius: number, tubeRadius: number) =>
  torusCapacitance({ outerDiameter: 2 * (majorRadius + tubeRadius), tubeDiameter: 2 * tubeRadius });

describe("sphereCapacitance", () => {
  // independent: 4π·ε0·a at 30 digits, per ε0 (test/reference/isolated-capacitance.json)
  it.each(named("sphere.capacitance"))("meets $inputs", ({ inputs, value_over_eps0 }) => {
    const found = sphereCapacitance({ diameter: 2 * (inputs as { radius: number }).radius });
    expect(relativeError(found / electricConstant, value_over_eps0)).toBeLessThan(1e-14);
  });
  it("refuses a point", () => expect(() => sphereCapacitance({ diameter: 0 })).toThrow(/positive/));
});

describe("torusCapacitance", () => {
  // independent: the series with both kinds of function at 25 digits, checked there by a boundary-integral solution; and the same series
  // evaluated by others, to their ten digits (test/reference/isolated-capacitance.json). 1e-12 is rounding in R − r of the fattest
  it.each(named("torus.capacitance"))("meets the series at $inputs", ({ inputs, value_over_eps0 }) => {
    const { majorRadius, tubeRadius } = inputs as { majorRadius: number; tubeRadius: number };
    expect(relativeError(ofRadii(majorRadius, tubeRadius) / electricConstant, value_over_eps0)).toBeLessThan(1e-12);
  });
  it.each(named("torus.capacitance.published"))("meets the printed value at $inputs", ({ inputs, value_over_eps0 }) => {
    const { majorRadius, tubeRadius } = inputs as { majorRadius: number; tubeRadius: number };
    expect(relativeError(ofRadii(majorRadius, tubeRadius) / electricConstant, value_over_eps0)).toBeLessThan(1e-9);
  });

  // law: a thin ring, C → 4π²ε0·R/ln(8R/r); the rest is of order (r/R)²
  it("becomes a thin ring", () => {
    const found = ofRadii(1, 1e-5) / electricConstant;
    expect(relativeError(found, (4 * Math.PI ** 2) / Math.log(8e5))).toBeLessThan(1e-9);
  });

  // law: with the hole nearly closed it lies between the disc of its outside radius, 8ε0·a, and the sphere of it, and scales with size
  it("lies between disc and sphere when the hole closes", () => {
    const found = ofRadii(1.001, 1) / electricConstant;
    expect(found).toBeGreaterThan(8 * 2.001);
    expect(found).toBeLessThan(4 * Math.PI * 2.001);
    expect(relativeError(ofRadii(10.01, 10), electricConstant * 10 * found)).toBeLessThan(1e-9);
  });

  it("refuses a closed hole", () => {
    expect(() => torusCapacitance({ outerDiameter: 0.2, tubeDiameter: 0.1 })).toThrow(/open hole/);
    expect(() => torusCapacitance({ outerDiameter: 0.2, tubeDiameter: 0 })).toThrow(/open hole/);
  });
});
