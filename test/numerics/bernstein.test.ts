import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { firstDescent, polynomialAt, signChanges } from "../../src/numerics/bernstein.ts";

const seed = 20260101;

/** Coefficients of scale·∏(t − root), lowest power first. */
function fromRoots(roots: readonly number[], scale: number): Float64Array {
  let p = [scale];
  for (const root of roots) {
    const next = new Array<number>(p.length + 1).fill(0);
    p.forEach((c, k) => {
      next[k]! -= root * c;
      next[k + 1]! += c;
    });
    p = next;
  }
  return Float64Array.from(p);
}

const found = new Float64Array(31);

describe("signChanges", () => {
  test("finds the roots that a polynomial was built from, and no others", () => {
    // law: the polynomial is the product of its linear factors
    const separated = fc
      .uniqueArray(fc.integer({ min: 1, max: 199 }), { minLength: 0, maxLength: 6 })
      .map((grid) => grid.map((g) => g / 200 + 0.0013).sort((a, b) => a - b));
    const outside = fc.array(
      fc.oneof(fc.double({ min: 1.05, max: 3, noNaN: true }), fc.double({ min: -3, max: -0.05, noNaN: true })),
      { maxLength: 3 },
    );
    fc.assert(
      fc.property(separated, outside, fc.constantFrom(-7, 0.01, 3e5), (inside, others, scale) => {
        const p = fromRoots([...inside, ...others], scale);
        const count = signChanges(p, p.length - 1, found);
        expect(count).toBe(inside.length);
        inside.forEach((root, k) => {
          expect(found[k]).toBeCloseTo(root, 7);
        });
      }),
      { seed, numRuns: 300 },
    );
  });

  test("sees a root that falls on a point of halving", () => {
    // law: exact arithmetic on (t − 1/2)(t − 1/4)(t − 3/4)
    const p = fromRoots([0.5, 0.25, 0.75], 1);
    expect(Array.from(found.subarray(0, signChanges(p, 3, found)))).toEqual(
      [0.25, 0.5, 0.75].map((root) => expect.closeTo(root, 14)),
    );
  });

  test("leaves a touch out", () => {
    // law: (t − 0.3)² does not change sign
    const p = fromRoots([0.3, 0.3], 1);
    expect(signChanges(p, 2, found)).toBe(0);
  });

  test("parts two roots that lie a millionth apart", () => {
    const p = fromRoots([0.3, 0.300001], 1);
    expect(signChanges(p, 2, found)).toBe(2);
    expect(found[1]! - found[0]!).toBeCloseTo(1e-6, 9);
  });
});

describe("firstDescent", () => {
  test("is the first root at which the polynomial falls through zero", () => {
    // law: of the roots 0.2, 0.5, 0.9 of a cubic that starts positive, the first and the third fall
    const p = fromRoots([0.2, 0.5, 0.9], -1);
    expect(p[0]).toBeGreaterThan(0);
    expect(firstDescent(p, 3, 1e-13)).toBeCloseTo(0.2, 14);
  });

  test("is 0 where the polynomial begins negative, and Infinity where it never falls", () => {
    expect(firstDescent(Float64Array.of(-1, 5), 1, 1e-13)).toBe(0);
    expect(firstDescent(Float64Array.of(1, 5), 1, 1e-13)).toBe(Number.POSITIVE_INFINITY);
    expect(firstDescent(Float64Array.of(0, 0, 0), 2, 1e-13)).toBe(Number.POSITIVE_INFINITY);
  });

  test("leaves out a root at the start and takes the next one", () => {
    // law: t·(0.7 − t), with and without a rounding at t = 0
    expect(firstDescent(Float64Array.of(0, 0.7, -1), 2, 1e-13)).toBeCloseTo(0.7, 14);
    expect(firstDescent(Float64Array.of(-1e-16, 0.7, -1), 2, 1e-13)).toBeCloseTo(0.7, 14);
    expect(firstDescent(Float64Array.of(0, -0.7, 1), 2, 1e-13)).toBe(0);
  });

  test("does not miss the short dip of an oscillation of high degree", () => {
    // independent: cos as its own series, 1 + a·cos(5t + 1) dips below zero twice only where a > 1; acos gives the crossing
    const degree = 30;
    const a = 1.0005;
    const p = new Float64Array(degree + 1);
    let factor = 1;
    for (let k = 0; k <= degree; k++) {
      p[k] = a * factor * Math.cos(1 + (k * Math.PI) / 2);
      factor *= 5 / (k + 1);
    }
    p[0]! += 1;
    const crossing = (Math.acos(-1 / a) - 1) / 5;
    expect(firstDescent(p, degree, 1e-13)).toBeCloseTo(crossing, 12);
  });
});

describe("polynomialAt", () => {
  test("agrees with the sum of powers", () => {
    expect(polynomialAt(Float64Array.of(1, -2, 3, 0.5), 3, 0.4)).toBeCloseTo(1 - 0.8 + 0.48 + 0.032, 15);
  });
});
