import { describe, expect, test } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import type { BurstResult } from "../../src/burst/result.ts";
import { mutualOfCoupling } from "../../src/circuit/network.ts";
import { networkOf, openCases, openNetlist, pulseOf } from "./open-cases.ts";
import { peakOf, runNetlist } from "./simulator.ts";

/** The step of the live runs and what it costs them: up to 0.12 % (measured, see the reference's notes). */
const step = 1e-8;
const share = 2e-3;

interface Peaks {
  readonly primaryCurrent: number;
  readonly tankVoltage: number;
  readonly topVoltage: number;
}

async function peaksOf(netlist: string): Promise<Peaks> {
  const run = await runNetlist({ netlist, step });
  return {
    primaryCurrent: peakOf(run.time, run.primaryCurrent),
    tankVoltage: peakOf(run.time, run.tankVoltage),
    topVoltage: peakOf(run.time, run.topVoltage),
  };
}

function expectPeaks(peaks: Peaks, burst: BurstResult): void {
  expect(Math.abs(peaks.primaryCurrent / burst.peakPrimaryCurrent - 1)).toBeLessThan(share);
  expect(Math.abs(peaks.tankVoltage / burst.peakTankVoltage - 1)).toBeLessThan(share);
  expect(Math.abs(peaks.topVoltage / burst.peakTopVoltage - 1)).toBeLessThan(share);
}

/** A second mode in series with the first: its own loop stands on top of the first one's, and both couple to the primary. */
function withSecondMode(netlist: string): string {
  const replacements: readonly (readonly [string | RegExp, string])[] = [
    [".param Rs=140", ".param Rs=140\n.param Ls2=0.011\n.param Cs2=8.1e-12\n.param Rs2=260\n.param kc2=-0.11"],
    [
      "Rsec s1 top {Rs}",
      "Rsec s1 t1 {Rs}\nLsec2 s2 t1 {Ls2} ic=0\nRsec2 s2 top {Rs2}\nKps2 Lpri Lsec2 {kc2}\nKss Lsec Lsec2 0",
    ],
    ["Csec top 0 {Cs} ic=0", "Csec t1 0 {Cs} ic=0\nCsec2 top t1 {Cs2} ic=0"],
    [
      /^Bfb .*$/m,
      "Bfb fb 0 V = I(Vsense)+tlead*(V(c)-kc*sqrt(Lp/Ls)*V(s1)-kc2*sqrt(Lp/Ls2)*V(s2,t1))/(Lp*(1-kc*kc-kc2*kc2))",
    ],
  ];
  return replacements.reduce((text, [from, to]) => {
    const changed = text.replace(from, to);
    expect(changed).not.toBe(text);
    return changed;
  }, netlist);
}

describe("a general-purpose circuit simulator, run live", { timeout: 60_000 }, () => {
  // independent: implicit integration of the netlists, half a gigabyte for the moment they run
  test("finds the same burst", async () => {
    const openCase = openCases[0]!;
    expectPeaks(await peaksOf(openNetlist("open-1")), simulateBurst(networkOf(openCase), pulseOf(openCase)));
  });

  test("finds the same burst of a secondary with two modes and a streamer", async () => {
    const openCase = openCases[1]!;
    const network = networkOf(openCase);
    const second = {
      inductance: 0.011,
      capacitance: 8.1e-12,
      resistance: 260,
      mutual: mutualOfCoupling({
        coupling: -0.11,
        primaryInductance: network.primary.inductance,
        modeInductance: 0.011,
      }),
    };
    const modes = [...network.modes, second];
    const burst = simulateBurst({ ...network, modes }, pulseOf(openCase));
    const alone = simulateBurst(network, pulseOf(openCase));
    expect(Math.abs(burst.peakTopVoltage / alone.peakTopVoltage - 1)).toBeGreaterThan(5 * share);
    expectPeaks(await peaksOf(withSecondMode(openNetlist("open-2"))), burst);
  });
});
