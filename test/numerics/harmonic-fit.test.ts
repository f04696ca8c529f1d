import { describe, expect, it } from "vitest";
import { fitHarmonics } from "../../src/numerics/harmonic-fit.ts";
import { chance } from "../matching/two-resonators.ts";

const bounds = { low: 0.0005, high: 0.05, harmonics: 10 };
const tone = (fundamental: number, amplitudes: readonly number[], noise: number, seed: number, count = 16_384) => {
  const random = chance(seed);
  return Float64Array.from(
    { length: count },
    (_, n) =>
      amplitudes.reduce((sum, a, h) => sum + a * Math.cos(2 * Math.PI * (h + 1) * fundamental * n + h), 0) +
      noise * random.normal(),
  );
};

describe("fitHarmonics", () => {
  it.each([
    ["a full series", 0.00371, [1, 0.8, 0.7, 0.6, 0.5, 0.4]],
    ["a weak fundamental", 0.0052, [0.05, 1, 0.9, 0.7, 0.8]],
    ["a pure tone", 0.0123, [1]],
  ])("finds the fundamental of %s", (_what, fundamental, amplitudes) => {
    // law: the signal's own fundamental; within five of its standard errors
    const fit = fitHarmonics(tone(fundamental, amplitudes, 0.1, 3), bounds);
    expect(Math.abs(fit!.fundamental - fundamental)).toBeLessThan(5 * fit!.error + 1e-12);
    expect(fit!.error / fundamental).toBeLessThan(1e-4);
    expect(fit!.share).toBeGreaterThan(0.8);
  });

  it("scatters as its error says", () => {
    // law: mean square of error/deviation is 1; 40 records leave 22 %
    const runs = 40;
    let sum = 0;
    for (let run = 0; run < runs; run++) {
      const fit = fitHarmonics(tone(0.0041, [1, 0.5, 0.5], 0.5, 100 + run, 4096), bounds)!;
      sum += ((fit.fundamental - 0.0041) / fit.error) ** 2 / runs;
    }
    expect(sum).toBeGreaterThan(0.45);
    expect(sum).toBeLessThan(1.9);
  });

  it("says nothing of silence, and refuses wrong bounds", () => {
    expect(fitHarmonics(new Float64Array(100), bounds)).toBeUndefined();
    expect(() => fitHarmonics(new Float64Array(100), { ...bounds, low: 0 })).toThrow(/low < high/);
  });
});
