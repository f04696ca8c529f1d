import { describe, expect, it } from "vitest";
import { mutualOfCoaxialRings } from "../../src/fields/rings.ts";
import { magneticConstant } from "../../src/fields/vacuum.ts";
import { relativeError } from "../numerics/within.ts";
import independent from "../reference/magnetics.json" with { type: "json" };
import shared from "../reference/mutual-inductance.json" with { type: "json" };

describe("mutualOfCoaxialRings", () => {
  // independent: Neumann's integral by mpmath at 50 digits (test/reference/magnetics.py); 2e-14 is rounding of the inputs' differences
  it.each(independent.rings)("equals Neumann's integral for $radiusA, $radiusB at $separation m", (c) => {
    expect(relativeError(mutualOfCoaxialRings(c), c.henry)).toBeLessThan(2e-14);
  });

  // independent: Maxwell's closed form at 30 digits, checked there by quadrature; per µ0, good to 1e-13 (test/reference/mutual-inductance.json)
  const filaments = shared.entries.filter((entry) => entry.quantity === "mutual.filaments");
  it.each(filaments)("equals Maxwell's closed form for $inputs", ({ inputs, value_over_mu0 }) => {
    const { radius1, radius2, axialDistance } = inputs as { radius1: number; radius2: number; axialDistance: number };
    const found = mutualOfCoaxialRings({ radiusA: radius1, radiusB: radius2, separation: axialDistance });
    expect(relativeError(found / magneticConstant, value_over_mu0!)).toBeLessThan(2e-13);
  });

  // law: far apart two rings are two dipoles, M → µ0·π·a²b²/(2d³)·(1 − 3(a² + b²)/(2d²)); the next term is of order (a/d)⁴
  it.each([1e2, 1e4, 1e8])("becomes two dipoles at %d radii", (separation) => {
    const [a, b] = [1, 0.4];
    const dipoles = (magneticConstant * Math.PI * a * a * b * b) / (2 * separation ** 3);
    const expected = dipoles * (1 - (1.5 * (a * a + b * b)) / separation ** 2);
    expect(relativeError(mutualOfCoaxialRings({ radiusA: a, radiusB: b, separation }), expected)).toBeLessThan(
      10 / separation ** 4 + 1e-14,
    );
  });

  // law: a thin ring beside itself, M → µ0·a·(ln(8a/d) − 2); the next term is of order (d/a)²·ln(d/a)
  it("becomes the self-inductance of a thin ring close by", () => {
    const found = mutualOfCoaxialRings({ radiusA: 0.1, radiusB: 0.1, separation: 1e-7 });
    expect(relativeError(found, magneticConstant * 0.1 * (Math.log(8e6) - 2))).toBeLessThan(1e-11);
  });

  // law: M(a, b, d) = M(b, a, −d); scaling all lengths scales M
  it("is symmetric and scales with length", () => {
    const first = mutualOfCoaxialRings({ radiusA: 0.21, radiusB: 0.07, separation: 0.05 });
    expect(
      relativeError(mutualOfCoaxialRings({ radiusA: 0.07, radiusB: 0.21, separation: -0.05 }), first),
    ).toBeLessThan(1e-15);
    expect(relativeError(mutualOfCoaxialRings({ radiusA: 21, radiusB: 7, separation: 5 }), 100 * first)).toBeLessThan(
      1e-14,
    );
  });

  it("refuses rings that coincide or have no radius", () => {
    expect(() => mutualOfCoaxialRings({ radiusA: 0.1, radiusB: 0.1, separation: 0 })).toThrow(/use selfOfRing/);
    expect(() => mutualOfCoaxialRings({ radiusA: 0, radiusB: 0.1, separation: 1 })).toThrow(
      /radii must be positive, got 0 m/,
    );
    expect(() => mutualOfCoaxialRings({ radiusA: 0.1, radiusB: Number.NaN, separation: 1 })).toThrow(/positive/);
  });
});
