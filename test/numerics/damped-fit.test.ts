import { describe, expect, it } from "vitest";
import { dampedAt, fitDamped } from "../../src/numerics/damped-fit.ts";
import { chance } from "../matching/two-resonators.ts";

const terms = [
  { decay: 0.004, angular: 0.6, real: 1, imaginary: 0.3 },
  { decay: 0.007, angular: 0.7, real: -0.4, imaginary: 0.5 },
];
const model = { terms, offset: 0.05 };
const exact = Float64Array.from({ length: 600 }, (_, n) => dampedAt(model, n));
const starts = [
  { decay: 0.002, angular: 0.59 },
  { decay: 0.002, angular: 0.71 },
];
const byAngular = (fit: ReturnType<typeof fitDamped>) => [...(fit?.terms ?? [])].sort((a, b) => a.angular - b.angular);

describe("fitDamped", () => {
  it("gives back the tones of samples without noise", () => {
    // law: the model's own samples
    const fit = fitDamped(exact, starts);
    expect(fit?.converged).toBe(true);
    for (const [k, term] of byAngular(fit).entries()) {
      expect(term.decay).toBeCloseTo(terms[k]!.decay, 9);
      expect(term.angular).toBeCloseTo(terms[k]!.angular, 9);
      expect(term.real).toBeCloseTo(terms[k]!.real, 6);
      expect(term.imaginary).toBeCloseTo(terms[k]!.imaginary, 6);
    }
    expect(fit?.offset).toBeCloseTo(0.05, 8);
  });

  it("bears gaps", () => {
    // law: samples that do not count move nothing
    const holed = exact.map((value, n) => (n % 7 === 0 || (n > 200 && n < 260) ? Number.NaN : value));
    for (const [k, term] of byAngular(fitDamped(holed, starts)).entries()) {
      expect(term.angular).toBeCloseTo(terms[k]!.angular, 9);
    }
  });

  it("scatters as its covariance says", () => {
    // law: over many records the mean square of error/deviation is 1; 150 records leave 12 %
    const random = chance(7);
    const sums = [0, 0];
    const runs = 150;
    for (let run = 0; run < runs; run++) {
      const noisy = exact.map((value) => value + 0.02 * random.normal());
      const fit = fitDamped(noisy, starts);
      const first = fit?.terms.findIndex(({ angular }) => Math.abs(angular - 0.6) < 0.03) ?? -1;
      expect(first).toBeGreaterThanOrEqual(0);
      for (const [i, truth] of [terms[0]!.decay, terms[0]!.angular].entries()) {
        const value = i === 0 ? fit!.terms[first]!.decay : fit!.terms[first]!.angular;
        const at = 2 * first + i;
        sums[i]! += (value - truth) ** 2 / (0.02 ** 2 * fit!.covariance[at * 4 + at]!) / runs;
      }
    }
    for (const sum of sums) expect(Math.abs(sum - 1)).toBeLessThan(0.4);
  });

  it("gives up where there is nothing to tell tones apart", () => {
    expect(fitDamped(new Float64Array(5), starts)).toBeUndefined();
    expect(fitDamped(exact, [starts[0]!, starts[0]!])).toBeUndefined();
    expect(() => fitDamped(exact, [])).toThrow(/one to four/);
  });
});
