/** A burst train in a few numbers, for a search over many settings: what it reaches, and no more. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Coil } from "../description/coil.ts";
import { reachConstants } from "../stress/index.ts";
import type { Metre, Volt, Watt } from "../units/si.ts";
import { burstCircuit } from "./burst-circuit.ts";
import type { BurstSetting } from "./burst-contract.ts";
import { streamerFigures } from "./burst-figures.ts";
import { fullSetting } from "./burst-setting.ts";
import { isDriven } from "./burst-stage.ts";
import { steadyTrain, type TrainStart } from "./burst-train.ts";
import type { Solution } from "./contract.ts";

export interface BurstSketch {
  /** Upper end; 0 where the setting leaves the streamer out. */
  readonly reach: Metre;
  readonly topVoltage: Volt;
  readonly streamerPower: Watt;
  readonly tripped: boolean;
  /** More energy would reach further: neither the voltage holds the channel back nor a trip. */
  readonly wantsEnergy: boolean;
  /** Whether the simulation came to the end of the burst. */
  readonly whole: boolean;
  /** For a burst at a setting nearby. */
  readonly start: TrainStart;
}

/**
 * As `study`, without its figures.
 *
 * @param from  start of a burst at a setting nearby that was not cut short: fewer bursts until one is like the next; a trip has a memory
 * @returns undefined where there is no burst
 */
export function sketch(
  coil: Coil,
  solution: Solution,
  setting: BurstSetting,
  from?: TrainStart,
): BurstSketch | undefined {
  const full = { ...fullSetting(coil, solution, setting), modes: 1 as const };
  if (!isDriven(coil, full)) return undefined;
  try {
    const circuit = burstCircuit(coil, solution, full);
    const constants = reachConstants(coil.streamer);
    const held = setting.busVoltage !== undefined;
    const train = steadyTrain({
      circuit,
      supply: coil.supply,
      setting: full,
      held,
      constants,
      ...(from ? { from } : {}),
    });
    const { result, period, channel, start } = train;
    const tripped = result.tripTime !== undefined;
    const [length] = streamerFigures({ coil, setting: full, train });
    return {
      reach: length?.high ?? 0,
      topVoltage: result.peakTopVoltage,
      streamerPower: result.ledger.streamer / period,
      tripped,
      wantsEnergy: !tripped && train.settled && (channel === undefined || channel.byEnergy < channel.byVoltage),
      start,
      whole: result.reached === "endTime",
    };
  } catch (problem) {
    if (problem instanceof OutOfDomain) return undefined;
    throw problem;
  }
}
