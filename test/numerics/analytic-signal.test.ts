import { describe, expect, it } from "vitest";
import { analyticSignal, envelopeOf, phaseOf } from "../../src/numerics/analytic-signal.ts";

const count = 4000;
const inner = (values: Float64Array) => values.subarray(400, count - 400);

describe("analyticSignal", () => {
  it("gives amplitude and phase of a tone, away from the ends", () => {
    // law: the analytic signal of A·cos(ωn + φ) is A·exp(i(ωn + φ))
    const samples = Float64Array.from({ length: count }, (_, n) => 2 * Math.cos(2 * Math.PI * 0.037 * n + 0.3));
    const signal = analyticSignal(samples, { low: 0.02, high: 0.06 });
    for (const value of inner(envelopeOf(signal))) expect(Math.abs(value - 2)).toBeLessThan(0.005);
    const phase = phaseOf(signal);
    const turned = (phase[3000]! - phase[1000]!) / (2 * Math.PI * 2000);
    expect(turned).toBeCloseTo(0.037, 6);
    expect(Math.cos(phase[1000]!)).toBeCloseTo(Math.cos(2 * Math.PI * 37 + 0.3), 3);
  });

  it("keeps out what lies outside its band", () => {
    // law: offset, drift and a far harmonic are no part of the band
    const samples = Float64Array.from(
      { length: count },
      (_, n) => 5 + n / count + Math.cos(2 * Math.PI * 0.03 * n) + 0.5 * Math.cos(2 * Math.PI * 0.15 * n),
    );
    const envelope = inner(envelopeOf(analyticSignal(samples, { low: 0.02, high: 0.06 })));
    for (const value of envelope) expect(Math.abs(value - 1)).toBeLessThan(0.01);
  });

  it("follows a decay up to a period from its ends", () => {
    // law: the envelope of a slow exponential is that exponential
    const samples = Float64Array.from(
      { length: count },
      (_, n) => Math.exp(-n / 1500) * Math.sin(2 * Math.PI * 0.05 * n),
    );
    const envelope = envelopeOf(analyticSignal(samples, { low: 0.025, high: 0.1 }));
    for (let n = 40; n < count - 40; n++) expect(Math.abs(envelope[n]! / Math.exp(-n / 1500) - 1)).toBeLessThan(0.06);
  });

  it("refuses a band that is none", () => {
    expect(() => analyticSignal(new Float64Array(10), { low: 0.3, high: 0.2 })).toThrow(/low < high/);
    expect(() => analyticSignal(new Float64Array(3), { low: 0.1, high: 0.2 })).toThrow(/4 samples/);
  });
});
