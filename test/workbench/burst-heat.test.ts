import { describe, expect, it } from "vitest";
import type { Switch } from "../../src/description/coil.ts";
import { junctionCourse } from "../../src/stress/index.ts";
import type { BurstSetting } from "../../src/workbench/burst-contract.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import { figureOf, lantern, lanternSolved, pointVoltage } from "./burst-coils.ts";

/** Rise of the junction of the upper switch over its case, from sampled waveforms: every loss where and when it happens. */
function sampledRise(thermal: Switch["thermal"], setting: BurstSetting): { sampled: number; found: number } {
  const bridge = { ...lantern.bridge, switch: { ...lantern.bridge.switch, thermal } };
  const result = study({ ...lantern, bridge }, lanternSolved, setting, { waveforms: true });
  const { time, conducting, energy } = result.waveforms!;
  // The bridge starts with its upper side on, so every second change puts the upper side on; this one is late, so that is where it pays.
  const changes = result.commutations.filter((_, n) => n % 2 === 1);
  const all = result.commutations.reduce((sum, { current }) => sum + current, 0);
  const perAmpere = (2 * figureOf(result, "switch.turnOnLoss")) / all;
  const stretches = Array.from({ length: time.length - 1 }, (_, n) => {
    const [from, to] = [time[n]!, time[n + 1]!];
    const conducted = conducting[n + 1] === 1 ? energy.switches[n + 1]! - energy.switches[n]! : 0;
    const freewheeled = conducting[n + 1] === 2 ? energy.diodes[n + 1]! - energy.diodes[n]! : 0;
    const switched = changes
      .filter((change) => change.time > from && change.time <= to)
      .reduce((sum, { current }) => sum + perAmpere * current, 0);
    return { duration: to - from, energy: conducted + freewheeled + switched };
  });
  const { heatsink } = lantern.bridge;
  const { peak, heatsinkCase } = junctionCourse({ stretches, period: 1 / 180, terms: thermal, heatsink });
  return {
    sampled: peak - heatsinkCase,
    found: figureOf(result, "switch.junctionPeak") - figureOf(result, "switch.case"),
  };
}

const slow = [
  [0.12, 1e-3],
  [0.25, 20e-3],
] as const;
const fast = [
  [0.05, 1e-5],
  [0.1, 1e-4],
  [0.2, 1e-2],
] as const;

describe("the heat of a switch over a burst", () => {
  // independent: heat put where sampled waveforms have it, through the same thermal terms; the upper side is the hotter one here
  it.each([
    ["a streamer and slow terms", slow, { breakoutVoltage: pointVoltage }, 0.015],
    ["no streamer and slow terms", slow, {}, 0.015],
    ["a streamer and fast terms", fast, { breakoutVoltage: pointVoltage }, 0.06],
    ["no streamer and fast terms", fast, {}, 0.06],
  ] as const)("raises the junction as sampled waveforms do, with %s", (_what, thermal, setting, within) => {
    const { sampled, found } = sampledRise(thermal, setting);
    expect(sampled).toBeGreaterThan(0);
    expect(Math.abs(found / sampled - 1)).toBeLessThan(within);
  });
});
