import { describe, expect, it } from "vitest";
import { skinRatio } from "../../src/numerics/bessel.ts";
import reference from "../reference/magnetics.json" with { type: "json" };
import { relativeError } from "./within.ts";

describe("skinRatio", () => {
  // independent: mpmath's Bessel functions at 60 digits and more (test/reference/magnetics.py); rounding leaves some 1e-16
  it.each(reference.skinRatio)("gives both parts to double precision at x = $x", ({ x, re, im }) => {
    const found = skinRatio(x);
    expect(relativeError(found.re, re)).toBeLessThan(2e-15);
    expect(relativeError(found.im, im)).toBeLessThan(2e-15);
  });

  // law: x = 0 is direct current; for x → ∞ the wire is a plane of the wire's circumference, F → (1 + i)·x/√8 + 1/4
  it("reaches both limits", () => {
    expect(skinRatio(0)).toEqual({ re: 1, im: 0 });
    for (const x of [1e5, 1e12]) {
      expect(relativeError(skinRatio(x).re, x / Math.sqrt(8) + 0.25)).toBeLessThan(1e-10);
      expect(relativeError(skinRatio(x).im, x / Math.sqrt(8))).toBeLessThan(1e-10);
    }
  });

  // law: the slope does not jump where the continued fraction hands over to Hankel's expansion, at x = 28
  it("is smooth across the change of method", () => {
    const step = 1e-3;
    const [a, b, c] = [28 - step, 28, 28 + step].map((x) => skinRatio(x).re) as [number, number, number];
    expect(Math.abs(a - 2 * b + c)).toBeLessThan(1e-9);
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])("refuses x = %d", (x) =>
    expect(() => skinRatio(x)).toThrow(/finite and not negative/),
  );
});
