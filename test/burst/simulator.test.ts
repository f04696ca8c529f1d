import { describe, expect, test } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import { networkOf, openCases, openNetlist, pulseOf } from "./open-cases.ts";
import { peakOf, runNetlist } from "./simulator.ts";

describe("a general-purpose circuit simulator, run live", () => {
  test("finds the same burst", { timeout: 60_000 }, async () => {
    // independent: implicit integration of the netlist with steps of 10 ns, whose own error is up to 0.12 % (measured, see the
    // reference's notes); half a gigabyte for the moment it runs
    const openCase = openCases[0]!;
    const run = await runNetlist({ netlist: openNetlist(openCase.parameters.id), step: 1e-8 });
    const burst = simulateBurst(networkOf(openCase), pulseOf(openCase));
    expect(peakOf(run.time, run.primaryCurrent) / burst.peakPrimaryCurrent).toBeCloseTo(1, 2.5);
    expect(peakOf(run.time, run.tankVoltage) / burst.peakTankVoltage).toBeCloseTo(1, 2.5);
    expect(peakOf(run.time, run.topVoltage) / burst.peakTopVoltage).toBeCloseTo(1, 2.5);
    const every = run.time.filter((_, n) => n % 500 === 250);
    const samples = burst.waveforms!.sample(every);
    let worst = 0;
    every.forEach((time, n) => {
      const index = run.time.indexOf(time);
      worst = Math.max(worst, Math.abs(run.primaryCurrent[index]! - samples.primaryCurrent[n]!));
    });
    expect(worst / burst.peakPrimaryCurrent).toBeLessThan(0.01);
    expect(every.length).toBeGreaterThan(20);
  });
});
