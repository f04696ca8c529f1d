import { describe, expect, test } from "vitest";
import { momentAt, momentText } from "../../src/views/half-cycle.ts";
import { sampleAt } from "../../src/views/waveform-reduce.ts";
import { burst, solution, waves } from "./lectern-burst.ts";

const store = {
  capacitance: solution.figures.get("tank.capacitance")?.value ?? 0,
  inductance: solution.figures.get("tank.inductance")?.value ?? 0,
};
const end = waves.time.at(-1) ?? 0;
const moments = Array.from({ length: 400 }, (_, n) => {
  const time = (end * (n + 0.5)) / 400;
  return { time, ...momentAt(waves, store, time) };
});

describe("a moment of a burst", () => {
  // law: energy is kept: what was given and what the tank began with is somewhere
  test("has all its energy somewhere", () => {
    const begun = 0.5 * store.capacitance * (waves.tankVoltage[0] ?? 0) ** 2;
    for (const { energy } of moments) {
      const somewhere = energy.capacitor + energy.inductance + energy.secondary + energy.spent;
      expect(somewhere).toBeCloseTo(energy.given + begun, 9);
    }
  });

  // law: charge through a series circuit is what its capacitor has taken; the integral of the current by trapezia
  test("has moved the charge that the current makes", () => {
    const { time, primaryCurrent } = waves;
    let charge = 0;
    for (let n = 1; n < time.length; n++) {
      charge += 0.5 * ((primaryCurrent[n] ?? 0) + (primaryCurrent[n - 1] ?? 0)) * ((time[n] ?? 0) - (time[n - 1] ?? 0));
      const exact = momentAt(waves, store, time[n] ?? 0).charge;
      const swing = store.capacitance * (burst.figures.get("burst.peakTankVoltage")?.value ?? 1);
      // 28 samples a cycle: the trapezia miss by (2π/28)²/12 = 0.4 % of a swing
      expect(Math.abs(charge - exact)).toBeLessThan(0.006 * swing);
    }
  });

  // law: a switch takes from the bus and a diode gives back to it, whichever way the current runs
  test("tells which way the energy goes by what conducts", () => {
    const peak = burst.figures.get("burst.peakPrimaryCurrent")?.value ?? 0;
    const driven = moments.filter(({ conducting, current }) => conducting !== 0 && Math.abs(current) > 2);
    expect(new Set(driven.map(({ conducting }) => conducting)).size).toBe(4);
    for (const moment of driven) {
      const bySwitch = moment.conducting === 1 || moment.conducting === 3;
      const says = momentText(moment, "half");
      // the bridge's own voltage knows nothing of what the words were made from; up to one sample from a zero, sin(2π/28) of the
      // peak, it may still be that of the branch before
      if (Math.abs(moment.current) > 0.25 * peak) {
        expect(Math.sign(sampleAt(waves.time, waves.bridgeVoltage, moment.time, true) * moment.current)).toBe(
          bySwitch ? 1 : -1,
        );
      }
      expect(says).toContain(bySwitch ? "the bus gives energy" : "energy goes back to the bus");
      expect(says).toContain(bySwitch ? "switch conducts" : "diode of the");
      expect(says).toContain(moment.current > 0 ? "from the leg" : "into the leg");
    }
  });

  test("says so where nothing conducts", () => {
    const still = { ...moments[0], conducting: 0, current: 0 } as (typeof moments)[number];
    expect(momentText(still, "full")).toMatch(/Nothing conducts/);
  });
});
