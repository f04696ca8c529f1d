/** Commutations of a bridge that follows the primary's current, from the poles alone; and clipped tops bridged. Takes less than a second. */
import { describe, expect, it } from "vitest";
import { feedbackSteps } from "../../src/matching/reading/feedback-steps.ts";
import { bridged } from "../../src/matching/reading/stretch.ts";
import { polesOf, type Resonators, simulate } from "./two-resonators.ts";

describe("the commutations of a bridge that follows its current", () => {
  it.each([
    { primaryFrequency: 0.98, secondaryFrequency: 1, primaryQ: 70, secondaryQ: 130, coupling: 0.13 },
    { primaryFrequency: 1, secondaryFrequency: 1, primaryQ: 40, secondaryQ: 60, coupling: 0.08 },
    { primaryFrequency: 1.05, secondaryFrequency: 1, primaryQ: 150, secondaryQ: 35, coupling: 0.19 },
  ] satisfies Resonators[])("follow from poles, secondary and start ($primaryFrequency, $coupling)", (resonators) => {
    // independent: the generator moves the circuit's four states and changes the bridge at the zeros of the current
    const [start, onTime] = [8.37, 22];
    const made = simulate(
      { resonators, drive: "feedback", onTime, starts: [start] },
      { start: 0, interval: 1 / 16, length: 16 * 40 },
    );
    const truth = made.commutations[0]!;
    const poles = polesOf(resonators).map(({ frequency, decay }) => ({ decay, angular: 2 * Math.PI * frequency }));
    const own = (2 * Math.PI * resonators.secondaryFrequency) / (2 * resonators.secondaryQ);
    const secondary = Math.sqrt((2 * Math.PI * resonators.secondaryFrequency) ** 2 - own ** 2);
    const steps = feedbackSteps(
      poles,
      {
        start,
        delay: 0,
        between: (secondary - poles[0]!.angular) / (poles[1]!.angular - poles[0]!.angular),
        damping: own / (poles[0]!.decay + poles[1]!.decay),
        growth: 0,
      },
      { until: start + onTime, most: 100 },
    ).slice(1);
    expect(truth.length).toBeGreaterThan(38);
    expect(steps.length).toBe(truth.length);
    for (const [j, at] of truth.entries()) expect(Math.abs(steps[j]! - at)).toBeLessThan(2e-3);
  });

  it("come later by the delay, and the first by what a threshold adds", () => {
    const poles = [
      { decay: 0.02, angular: 5.9 },
      { decay: 0.02, angular: 6.7 },
    ];
    const about = { start: 1, between: 0.5, damping: 0.5 };
    const until = { until: 20, most: 5 };
    const [plain, late, weak] = [
      feedbackSteps(poles, { ...about, delay: 0, growth: 0 }, until),
      feedbackSteps(poles, { ...about, delay: 0.05, growth: 0 }, until),
      feedbackSteps(poles, { ...about, delay: 0.05, growth: 0.02 }, until),
    ] as const;
    expect(late[1]! - plain[1]!).toBeCloseTo(0.05, 9);
    expect(weak[1]! - late[1]!).toBeCloseTo(0.02, 9);
  });
});

describe("gaps of a clipped half-cycle", () => {
  it("are bridged so that the top goes on over the range, longer ones are left at zero", () => {
    // law: a sine known beforehand, clipped at three quarters
    const sine = Float64Array.from({ length: 200 }, (_, n) => Math.sin((2 * Math.PI * n) / 16));
    const clipped = sine.map((value) => (Math.abs(value) > 0.75 ? Number.NaN : value));
    const whole = bridged(clipped, 8);
    for (let n = 16; n < 184; n++) expect(Math.abs(whole[n]! - sine[n]!)).toBeLessThan(0.2);
    const gap = sine.map((value, n) => (n >= 60 && n < 80 ? Number.NaN : value));
    expect([...bridged(gap, 8).subarray(60, 80)].every((value) => value === 0)).toBe(true);
  });
});
