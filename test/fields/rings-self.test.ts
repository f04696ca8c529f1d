import { describe, expect, it } from "vitest";
import {
  equivalentRadius,
  equivalentRadiusOfRound,
  equivalentRadiusOfTrace,
  selfOfRing,
} from "../../src/fields/rings-self.ts";
import { magneticConstant } from "../../src/fields/vacuum.ts";
import { relativeError } from "../numerics/within.ts";
import independent from "../reference/magnetics.json" with { type: "json" };
import shared from "../reference/self-inductance.json" with { type: "json" };

describe("selfOfRing", () => {
  // independent: Maxwell's closed form at 30 digits, per µ0 (test/reference/self-inductance.json)
  const loops = shared.entries.filter((entry) => entry.quantity === "roundLoop.external");
  it.each(loops)("equals Maxwell's thin ring for $inputs", ({ inputs, value_over_mu0 }) => {
    const { radius, wireRadius } = inputs as { radius: number; wireRadius: number };
    const found = selfOfRing({ radius, equivalentRadius: wireRadius });
    expect(relativeError(found / magneticConstant, value_over_mu0!)).toBeLessThan(1e-14);
  });

  // law: uniform current in the section adds µ0·a/4, the internal inductance µ0/8π per metre of a round wire
  it("adds the internal flux of a filled section", () => {
    const internal = selfOfRing({
      radius: 0.1,
      equivalentRadius: equivalentRadiusOfRound({ diameter: 0.002, flux: "internal" }),
    });
    const external = selfOfRing({
      radius: 0.1,
      equivalentRadius: equivalentRadiusOfRound({ diameter: 0.002, flux: "external" }),
    });
    expect(relativeError(internal - external, (magneticConstant * 0.1) / 4)).toBeLessThan(1e-13);
  });

  // independent: Neumann's integral of the arc by adaptive quadrature at 50 digits (test/reference/magnetics.py); 1e-12 is 48 Gauss points
  it.each(independent.arcs)("equals Neumann's integral of $share of a ring of $radius m", (c) => {
    expect(relativeError(selfOfRing(c), c.henry)).toBeLessThan(1e-12);
  });

  // law: a short arc of a large ring is a straight wire, L = µ0·l/2π·(ln(2l/r) − 1) (rosa-grover-169, external flux); the rest is of order l²/R², r/l
  it("becomes a straight wire on a large ring", () => {
    const length = 0.5;
    const found = selfOfRing({ radius: 20, share: length / (40 * Math.PI), equivalentRadius: 1e-5 });
    const straight = ((magneticConstant * length) / (2 * Math.PI)) * (Math.log((2 * length) / 1e-5) - 1);
    expect(relativeError(found, straight)).toBeLessThan(1e-4);
  });

  // law: no jump at either end of the tap, nor where the integral is folded; growing with the share throughout
  it("grows without a jump from nothing to the full turn", () => {
    const at = (share: number) => selfOfRing({ radius: 0.1, share, equivalentRadius: 0.004 });
    expect(at(0)).toBe(0);
    expect(relativeError(at(1 - 1e-9), at(1))).toBeLessThan(1e-7);
    expect(relativeError(at(0.5 - 1e-9), at(0.5 + 1e-9))).toBeLessThan(1e-8);
    for (let share = 0.02; share <= 1; share += 0.02) expect(at(share)).toBeGreaterThan(at(share - 0.02));
  });

  it("refuses shares outside 0 … 1 and conductors thicker than their turn", () => {
    expect(() => selfOfRing({ radius: 0.1, share: 1.2, equivalentRadius: 0.001 })).toThrow(
      /share must lie in 0 … 1, got 1.2/,
    );
    expect(() => selfOfRing({ radius: 0.1, equivalentRadius: 0.06 })).toThrow(/radius\/2/);
    expect(() => selfOfRing({ radius: 0.1, equivalentRadius: 0 })).toThrow(/equivalent radius/);
  });
});

describe("equivalentRadiusOfTrace", () => {
  // published: exact mean distance of a rectangle from itself, Maxwell art. 692 (from memory); 0.2235 is within 0.2 % of it for all sides
  it.each([1, 2, 5, 20, 100, 1000])("is within 0.2 %% of the exact mean distance at sides 1 to %d", (a) => {
    const b = 1;
    const exact = Math.exp(
      0.5 * Math.log(a * a + b * b) -
        (a * a * Math.log(1 + (b * b) / (a * a))) / (12 * b * b) -
        (b * b * Math.log(1 + (a * a) / (b * b))) / (12 * a * a) +
        ((2 * a) / (3 * b)) * Math.atan(b / a) +
        ((2 * b) / (3 * a)) * Math.atan(a / b) -
        25 / 12,
    );
    expect(relativeError(equivalentRadiusOfTrace({ width: a, thickness: b }), exact)).toBeLessThan(2e-3);
  });

  it("refuses sides that are not positive", () => {
    expect(() => equivalentRadiusOfTrace({ width: 0, thickness: 1e-4 })).toThrow(/sides must be positive/);
    expect(() => equivalentRadiusOfRound({ diameter: -1, flux: "external" })).toThrow(/diameter must be positive/);
  });
});

describe("equivalentRadius", () => {
  // law: a tube and a wire of one diameter carry their current on the same surface
  it("takes half the diameter of tube and wire, and the mean distance of a trace", () => {
    expect(equivalentRadius({ tube: 0.008 })).toBe(0.004);
    expect(equivalentRadius({ wire: 0.008 })).toBe(0.004);
    expect(equivalentRadius({ trace: { width: 0.003, thickness: 7e-5 } })).toBe(
      equivalentRadiusOfTrace({ width: 0.003, thickness: 7e-5 }),
    );
  });
});
