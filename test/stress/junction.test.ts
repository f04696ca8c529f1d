import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { steadyTrainRise, thermalStep } from "../../src/circuit/thermal-network.ts";
import { junctionCourse } from "../../src/stress/index.ts";

const seed = 20260202;
const heatsink = { thermal: 0.9, ambient: 298.15 };
const terms = [
  [0.12, 1e-3],
  [0.25, 20e-3],
] as const;
const period = 1 / 180;

describe("junctionCourse", () => {
  it("peaks as in the example", () => {
    // independent: formula evaluated elsewhere (test/reference/parts.json, "example of the above": 25.097 K over the case)
    const stretches = [{ duration: 110e-6, energy: 2000 * 110e-6 }];
    const { peak, heatsinkCase } = junctionCourse({ stretches, period, terms: [[0.12, 1e-3]], heatsink });
    expect(peak - heatsinkCase).toBeCloseTo(25.097, 3);
  });

  it("is the state that stepping burst by burst comes to", () => {
    // independent: 400 bursts from cold, one stretch at a time
    const stretches = [
      { duration: 30e-6, energy: 0.02 },
      { duration: 50e-6, energy: 0.11 },
      { duration: 20e-6, energy: 0.01 },
    ];
    let rises: ArrayLike<number> = [0, 0];
    let peak = 0;
    for (let n = 0; n < 400; n++) {
      peak = 0;
      for (const { duration, energy } of stretches) {
        rises = thermalStep({ terms, rises, power: energy / duration, duration });
        peak = Math.max(peak, rises[0]! + rises[1]!);
      }
      rises = thermalStep({ terms, rises, power: 0, duration: period - 100e-6 });
    }
    const course = junctionCourse({ stretches, period, terms, heatsink });
    expect((course.peak - course.heatsinkCase) / peak).toBeCloseTo(1, 9);
    expect(course.temperature[0]! - course.heatsinkCase).toBeCloseTo(rises[0]! + rises[1]!, 9);
    expect(course.temperature.at(-1)! / course.temperature[0]!).toBeCloseTo(1, 12);
  });

  it("ends where it began, peaks above its mean, and has the mean of its power", () => {
    // law: a steady train repeats; the mean of every linear network is that of its mean power
    const some = fc.double({ min: 1e-6, max: 2e-4, noNaN: true });
    const joule = fc.double({ min: 0, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.record({ duration: some, energy: joule }), { maxLength: 20 }), (stretches) => {
        const course = junctionCourse({ stretches, period, terms, heatsink });
        const power = stretches.reduce((sum, { energy }) => sum + energy, 0) / period;
        expect(course.mean).toBeCloseTo(298.15 + power * (0.9 + 0.37), 9);
        expect(course.peak).toBeGreaterThanOrEqual(course.mean - 1e-9);
        expect(course.temperature.at(-1)).toBeCloseTo(course.temperature[0]!, 9);
        expect(course.time.at(-1)).toBeCloseTo(period, 12);
      }),
      { seed },
    );
  });

  it("of even heat all the time is that of direct current", () => {
    // exact limit: one stretch as long as the period
    const { peak, mean } = junctionCourse({
      stretches: [{ duration: period, energy: 50 * period }],
      period,
      terms,
      heatsink,
    });
    expect(peak).toBeCloseTo(mean, 9);
    expect(peak - 298.15).toBeCloseTo(50 * (0.9 + 0.37), 9);
    expect(steadyTrainRise({ terms, power: 50, onTime: period, period })).toBeCloseTo(50 * 0.37, 9);
  });

  it("refuses stretches longer than the period", () => {
    expect(() => junctionCourse({ stretches: [{ duration: 1, energy: 1 }], period: 0.5, terms, heatsink })).toThrow(
      "fit the period",
    );
  });
});
