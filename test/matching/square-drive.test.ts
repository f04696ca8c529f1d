/** Resonators under the steps of a square drive. */
import { describe, expect, it } from "vitest";
import { amplitudesOf, curveOf, fitSquareDrive, type StepModel } from "../../src/matching/reading/square-drive.ts";
import { chance } from "./two-resonators.ts";

const [decay, angular, half] = [0.004, 0.52, 6.3];
const pole = { decay, angular };
const squareHeights = (count: number) => Float64Array.from({ length: count }, (_, j) => (j === 0 ? 1 : j % 2 ? -2 : 2));

describe("the curve of a square drive", () => {
  it("is the closed form of a driven damped oscillator once the start has died away", () => {
    // law: Σ over all earlier half-cycles of ±2·exp(s·t) is a geometric series: 2·Im(exp(s·t)/(1 + exp(s·T))), s = −decay + i·angular, T a half-cycle
    const count = 800;
    const steps = Float64Array.from({ length: count }, (_, j) => j * half);
    const curve = curveOf(
      // Im exp(s·t) = Re(−i·exp(s·t))
      { poles: [pole], real: [0], imaginary: [-1], steps },
      { heights: squareHeights(count), from: 0, to: (count - 1) * half, every: 1 },
    );
    const size = Math.exp(-decay * half);
    const [re, im] = [1 + size * Math.cos(angular * half), size * Math.sin(angular * half)];
    for (let n = Math.ceil((count - 60) * half); n < curve.length; n++) {
      const j = Math.floor(n / half);
      const t = n - j * half;
      const [a, b] = [Math.exp(-decay * t) * Math.cos(angular * t), Math.exp(-decay * t) * Math.sin(angular * t)];
      const expected = ((j % 2 ? -2 : 2) * (b * re - a * im)) / (re * re + im * im);
      expect(Math.abs(curve[n]! - expected)).toBeLessThan(1e-6);
    }
  });
});

/** Answer of one oscillator, current-like, to steps: summed term by term, with an offset. */
function answered(
  steps: readonly number[],
  heights: Float64Array,
  { length, offset }: { length: number; offset: number },
) {
  return Float64Array.from({ length }, (_, n) =>
    steps.reduce((sum, at, j) => {
      const t = n - at;
      return t < 0 ? sum : sum + heights[j]! * Math.exp(-decay * t) * Math.sin(angular * t);
    }, offset),
  );
}

describe("a drive that is fitted", () => {
  const [start, count, end] = [60.37, 24, 60.37 + 24 * half + 2.9];
  const steps = [...Array.from({ length: count + 1 }, (_, j) => start + j * half), end];
  const heights = Float64Array.from(steps, (_, j) => (j === 0 ? 1 : j === count + 1 ? -1 : j % 2 ? -2 : 2));
  const clean = answered(steps, heights, { length: 420, offset: 0.3 });
  const model: StepModel = {
    base: new Float64Array(count + 2),
    basis: steps.map((_, j) => (j === count + 1 ? Float64Array.of(0, 0, 1) : Float64Array.of(1, j, 0))),
    heights,
  };
  const known = [{ ...pole, decayWeight: 0, angularWeight: 0 }];

  it("has its amplitude and offset found where everything else is given", () => {
    // independent: the terms that were summed
    const found = amplitudesOf(
      { values: clean, from: 0, to: 420 },
      { poles: [pole], steps, heights, answer: "current" },
    );
    expect(found!.point.real[0]).toBeCloseTo(0, 6);
    expect(found!.point.imaginary[0]).toBeCloseTo(-1, 6);
    expect(found!.point.offset).toBeCloseTo(0.3, 6);
    expect(Math.abs(found!.squares)).toBeLessThan(1e-6);
  });

  it("comes back from a wrong start, half-cycle, end and pole, with errors that are those of the noise", () => {
    // independent: the terms that were summed; over 40 records the squared errors are those that the covariance foretells
    const sigma = 0.02;
    const truth = [start, half, end];
    const sums = [0, 0, 0];
    for (let seed = 1; seed <= 40; seed++) {
      const random = chance(seed);
      const values = clean.map((value) => value + sigma * random.normal());
      values[200] = Number.NaN;
      const fit = fitSquareDrive(
        { values, from: 0, to: 420 },
        model,
        known.map((one) => ({ ...one, angular: angular * 1.004, decay: decay * 1.3 })),
        { moves: Float64Array.of(start + 0.4, half * 0.998, end - 0.5), answer: "current" },
      );
      for (const [m, true_] of truth.entries())
        sums[m]! += (fit!.moves[m]! - true_) ** 2 / (sigma ** 2 * fit!.covariance[m * 3 + m]!) / 40;
    }
    // χ² of 40 over 40: 0.45 … 1.8 in 999 of 1000
    for (const sum of sums) {
      expect(sum).toBeGreaterThan(0.45);
      expect(sum).toBeLessThan(1.8);
    }
  });

  it("is not fitted where two poles are one", () => {
    // law: two equal columns cannot be told apart
    expect(amplitudesOf({ values: clean, from: 0, to: 420 }, { poles: [pole, pole], steps, heights })).toBeUndefined();
  });
});
