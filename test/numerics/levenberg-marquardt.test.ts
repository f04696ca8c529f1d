import { describe, expect, it } from "vitest";
import { levenbergMarquardt } from "../../src/numerics/levenberg-marquardt.ts";

/** Central differences, for functions whose slopes the test does not write out. */
function numeric(residualsOf: (p: Float64Array) => Float64Array) {
  return (p: Float64Array): Float64Array => {
    const count = residualsOf(p).length;
    const out = new Float64Array(count * p.length);
    p.forEach((value, k) => {
      const step = 1e-6 * Math.max(1, Math.abs(value));
      const [up, down] = [p.slice(), p.slice()];
      up[k] = value + step;
      down[k] = value - step;
      const [above, below] = [residualsOf(up), residualsOf(down)];
      for (let row = 0; row < count; row++) out[row * p.length + k] = (above[row]! - below[row]!) / (2 * step);
    });
    return out;
  };
}

const fitted = (start: readonly number[], residualsOf: (p: Float64Array) => Float64Array, mostIterations = 200) =>
  levenbergMarquardt({
    start: Float64Array.from(start),
    residualsOf,
    jacobianOf: numeric(residualsOf),
    settled: 1e-14,
    mostIterations,
  });

describe("levenbergMarquardt", () => {
  it("finds the floor of Rosenbrock's valley", () => {
    // published (from memory): Rosenbrock 1960; the least is 0 at (1, 1), from the usual start (−1.2, 1)
    const fit = fitted([-1.2, 1], (p) => Float64Array.of(10 * (p[1]! - p[0]! ** 2), 1 - p[0]!));
    expect(fit.solution[0]).toBeCloseTo(1, 6);
    expect(fit.solution[1]).toBeCloseTo(1, 6);
  });

  it("finds the least squares of a straight line as the closed form gives them", () => {
    // exact: slope = Sxy/Sxx, intercept through the means
    const [x, y] = [
      [0, 1, 2, 3, 5],
      [1.1, 2.9, 5.2, 6.8, 11.3],
    ];
    const mean = (v: number[]) => v.reduce((s, a) => s + a, 0) / v.length;
    const slope =
      x.reduce((s, a, n) => s + (a - mean(x)) * (y[n]! - mean(y)), 0) / x.reduce((s, a) => s + (a - mean(x)) ** 2, 0);
    const fit = fitted([0, 0], (p) => Float64Array.from(x, (a, n) => p[0]! + p[1]! * a - y[n]!));
    expect(fit.solution[1]).toBeCloseTo(slope, 9);
    expect(fit.solution[0]).toBeCloseTo(mean(y) - slope * mean(x), 9);
  });

  it("finds a decay whose terms are far apart in scale", () => {
    // law: data made by the model are met exactly
    const truth = [3e-6, 5e4, 0.2];
    const model = (p: ArrayLike<number>, t: number) => p[0]! * 1e6 * Math.exp(-p[1]! * 1e-5 * t) + p[2]!;
    const times = Array.from({ length: 30 }, (_, n) => 0.3 * n);
    const fit = fitted([1e-6, 2e4, 0], (p) => Float64Array.from(times, (t) => model(p, t) - model(truth, t)));
    truth.forEach((value, k) => {
      expect(Math.abs(fit.solution[k]! / value - 1)).toBeLessThan(1e-5);
    });
  });

  it("never accepts a point that cannot be computed, nor one that is worse than the start", () => {
    // law: squares never rise; the logarithm of what is not positive is refused by staying away from it
    const residualsOf = (p: Float64Array) => Float64Array.of(Math.log(p[0]!) - 1, 0.1 * (p[0]! - 50));
    const fit = fitted([30], residualsOf);
    expect(fit.solution[0]).toBeGreaterThan(0);
    expect(fit.squares).toBeLessThanOrEqual(residualsOf(Float64Array.of(30)).reduce((s, r) => s + r * r, 0));
  });
});
