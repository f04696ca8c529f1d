import { describe, expect, it } from "vitest";
import { coupledPoles } from "../../../src/fields/handbook/coupled-poles.ts";
import { dampedPoles } from "../../../src/matching/fit/damped-poles.ts";
import { polesOf } from "../two-resonators.ts";

const cases = [
  { first: { frequency: 198e3, q: 120 }, second: { frequency: 214e3, q: 340 }, coupling: 0.16 },
  { first: { frequency: 300e3, q: 30 }, second: { frequency: 300e3, q: 400 }, coupling: 0.08 },
  { first: { frequency: 90e3, q: 60 }, second: { frequency: 70e3, q: 200 }, coupling: 0.25 },
];

describe("dampedPoles", () => {
  it("agrees with the roots of the pair's own characteristic polynomial", () => {
    for (const { first, second, coupling } of cases) {
      // independent: the polynomial of the state equations, written apart from this
      const [lower, upper] = polesOf({
        primaryFrequency: first.frequency,
        secondaryFrequency: second.frequency,
        primaryQ: first.q,
        secondaryQ: second.q,
        coupling,
      });
      const found = dampedPoles({ first, second, coupling });
      for (const [one, other] of [
        [found.lower, lower],
        [found.upper, upper],
      ] as const) {
        expect(Math.abs(one.frequency / other!.frequency - 1)).toBeLessThan(1e-9);
        expect(Math.abs((Math.PI * one.frequency) / other!.decay / one.q - 1)).toBeLessThan(1e-6);
      }
    }
  });

  it("reaches the lossless poles as the losses go, and each loop alone as the coupling goes", () => {
    // exact limits
    const lossless = { first: { frequency: 198e3, q: 1e9 }, second: { frequency: 214e3, q: 1e9 } };
    const poles = coupledPoles({ first: 198e3, second: 214e3, coupling: 0.16 });
    const damped = dampedPoles({ ...lossless, coupling: 0.16 });
    expect(damped.lower.frequency / poles.lower).toBeCloseTo(1, 9);
    expect(damped.upper.frequency / poles.upper).toBeCloseTo(1, 9);
    const alone = dampedPoles({
      first: { frequency: 198e3, q: 50 },
      second: { frequency: 214e3, q: 340 },
      coupling: 0,
    });
    expect(alone.lower.q).toBeCloseTo(50, 0);
    expect(alone.upper.q).toBeCloseTo(340, 0);
  });

  it("refuses what is no pair of loops", () => {
    const good = { frequency: 1e5, q: 10 };
    expect(() => dampedPoles({ first: good, second: { frequency: 0, q: 10 }, coupling: 0.1 })).toThrow(/dampedPoles/);
    expect(() => dampedPoles({ first: good, second: good, coupling: 1 })).toThrow(/dampedPoles/);
  });
});
