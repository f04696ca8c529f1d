/**
 * Records of a half bridge with dead time, drops and diodes from a general-purpose circuit simulator, as an instrument of 8 bits shows them,
 * from one channel alone and from two. Independent: on-time, carrier and the secondary's line are the netlist's own. Takes about ten seconds.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { readRecord } from "../../src/matching/record.ts";
import { type BridgeCoil, type BridgeRun, type BridgeView, runBridge, seenOnBridge } from "./floating-netlists.ts";
import { chance } from "./two-resonators.ts";

const microsecond = 1e-6;
const coils = {
  "a table coil on a low bus": {
    frequency: 230e3,
    detuning: 0.95,
    coupling: 0.15,
    qualities: [60, 150],
    bus: 60,
    cycles: 18.3,
    after: 80,
    lead: 0.15 * microsecond,
    delay: 0.25 * microsecond,
    dead: 0.12 * microsecond,
  },
  "a large coil on the mains": {
    frequency: 92e3,
    detuning: 0.91,
    coupling: 0.11,
    qualities: [90, 190],
    bus: 325,
    cycles: 32.6,
    after: 80,
    lead: 0.4 * microsecond,
    delay: 0.6 * microsecond,
    dead: 0.25 * microsecond,
  },
  "a coil in tune, tightly coupled": {
    frequency: 160e3,
    detuning: 0.99,
    coupling: 0.18,
    qualities: [50, 110],
    bus: 170,
    cycles: 24.1,
    after: 80,
    lead: 0.2 * microsecond,
    delay: 0.4 * microsecond,
    dead: 0.15 * microsecond,
  },
} satisfies Record<string, BridgeCoil>;

const looks: readonly { says: string; views: readonly BridgeView[]; noise: number; range?: number }[] = [
  { says: "the primary current alone", views: ["current"], noise: 0.004 },
  { says: "a probe near the top alone", views: ["top"], noise: 0.006 },
  { says: "a loop alone, clipped", views: ["flux"], noise: 0.003, range: 0.92 },
  { says: "a loop and the gate", views: ["flux", "gate"], noise: 0.01 },
  { says: "the primary current and a loop", views: ["current", "flux"], noise: 0.004 },
];

describe.each(Object.entries(coils))("%s", (_name, coil) => {
  let run: BridgeRun;
  beforeAll(async () => {
    run = await runBridge(coil, 16.3);
  }, 60_000);
  const random = chance(41);

  it.each(looks)("is read from $says", ({ views, ...look }) => {
    const { carrier, onTime, poles, findings } = readRecord(seenOnBridge(run, { views, random, ...look }));
    expect(Math.abs(carrier!.is.value / run.carrier - 1)).toBeLessThan(5e-4);
    expect(Math.abs(onTime!.is.estimate.value - run.onTime) * 2 * run.carrier).toBeLessThan(1);
    if (views.length === 1 && views[0] === "current") {
      expect(poles).toBeUndefined();
      const said = findings.find(({ rule }) => rule === "record-without-decay");
      expect(said?.what).toMatch(/diodes give the primary's energy back/);
      return;
    }
    // Where hardly anything is left to ring, there may be no line; never a wrong one.
    if (poles === undefined && run.left < 0.03) return;
    expect(poles?.is.poles).toHaveLength(1);
    const [line] = poles!.is.poles;
    expect(Math.abs(line!.frequency.value / coil.frequency - 1)).toBeLessThan(2e-3);
    const { value, low, high } = line!.q;
    const claimed = (high - low) / 2 / value;
    expect(Math.abs(value / coil.qualities[1] - 1)).toBeLessThan(Math.max(0.03, 2 * claimed));
    expect(claimed).toBeLessThan(run.left < 0.03 ? 1 : 0.06);
  });
});
