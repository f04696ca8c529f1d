import { describe, expect, it } from "vitest";
import { completeElliptic } from "../../src/numerics/elliptic.ts";
import reference from "../reference/magnetics.json" with { type: "json" };
import { relativeError } from "./within.ts";

describe("completeElliptic", () => {
  // independent: mpmath at 50 digits (test/reference/magnetics.py); 4e-15 is what double precision leaves near m = 1
  it.each(reference.elliptic)("gives K and E to double precision at m1 = $m1", ({ m1, K, E }) => {
    const found = completeElliptic({ m: 1 - m1, m1 });
    expect(relativeError(found.K, K)).toBeLessThan(4e-15);
    expect(relativeError(found.E, E)).toBeLessThan(4e-15);
  });

  // published: Abramowitz & Stegun, table 17.1, m = 0.5, ten digits (from memory); the lemniscate constant
  it("meets the printed values at m = 0.5", () => {
    const { K, E } = completeElliptic({ m: 0.5 });
    expect(K).toBeCloseTo(1.8540746773, 10);
    expect(E).toBeCloseTo(1.350643881, 10);
  });

  // law: Legendre's relation, E·K' + E'·K − K·K' = π/2
  it.each([1e-8, 0.01, 0.3, 0.5, 0.77, 0.999])("keeps Legendre's relation at m = %d", (m) => {
    const here = completeElliptic({ m });
    const there = completeElliptic({ m: 1 - m, m1: m });
    expect(relativeError(here.E * there.K + there.E * here.K - here.K * there.K, Math.PI / 2)).toBeLessThan(2e-14);
  });

  // law: the two branches meet where one hands over to the other
  it("is smooth across the change to the logarithmic series", () => {
    const below = completeElliptic({ m: 1 - 0.9999999e-9, m1: 0.9999999e-9 });
    const above = completeElliptic({ m: 1 - 1.0000001e-9, m1: 1.0000001e-9 });
    expect(below.K - above.K).toBeCloseTo(1e-7, 13);
    expect(Math.abs(below.E - above.E)).toBeLessThan(1e-14);
  });

  it.each([-0.1, 1, 1.5, Number.NaN])("refuses m = %d", (m) =>
    expect(() => completeElliptic({ m })).toThrow(/needs 0 ≤ m < 1/),
  );
});
