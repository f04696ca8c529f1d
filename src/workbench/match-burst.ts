/** The start of a burst as a current channel would show it, from the values that a match moves. */
import { type BurstResult, simulateBurst } from "../burst/index.ts";
import { modeOfResonance } from "../circuit/mode-of-resonance.ts";
import type { BurstNetwork } from "../circuit/network.ts";
import type { Coil } from "../description/coil.ts";
import type { Observed } from "../matching/fit/observed.ts";
import type { Ampere, Hertz, Second } from "../units/si.ts";
import { burstCircuit, type DrivenCoil } from "./burst-circuit.ts";
import { fullSetting } from "./burst-setting.ts";
import type { Solution } from "./contract.ts";
import type { BurstInput, Loops } from "./match-point.ts";

/** Peaks of the first half-cycles as the channel shows them, and the mean frequency of the bridge's commutations. */
export interface BurstSeen {
  readonly peaks: readonly Ampere[];
  readonly carrier: Hertz | undefined;
  /** The bridge stops the current instead of driving it. */
  readonly idle: boolean;
}

/**
 * Last half-cycles of a drive, and the part of its greatest peak below which they say that nothing drives; and the part of the resonances above
 * which the bridge chatters in step with its own delay.
 */
const idleness = { last: 3, share: 0.2, chatter: 1.8 };

function isIdle({ envelope, meanFrequency }: BurstResult, { f1, tankFrequency }: Loops): boolean {
  const peaks = envelope.map(({ current }) => current);
  const ebbs = Math.max(0, ...peaks.slice(-idleness.last)) < idleness.share * Math.max(0, ...peaks);
  return peaks.length === 0 || ebbs || (meanFrequency ?? 0) > idleness.chatter * Math.max(f1, tankFrequency);
}

/** Guards of one burst. */
const limits = { events: 4_000, steps: 20_000 };

export function isDrivenCoil(coil: Coil): coil is DrivenCoil {
  return Boolean(coil.primary && coil.tank && coil.bridge && coil.supply && coil.feedback);
}

/**
 * The circuit of the coil as drawn, without streamer and trip, to be moved; undefined where the file has no bridge.
 * @param modes  of the secondary; higher ones only matter where they hold a comparator that senses the secondary's foot
 */
export function networkToMove(solution: Solution, modes: 1 | 3 = 1): BurstNetwork | undefined {
  const { coil } = solution;
  if (!isDrivenCoil(coil)) return undefined;
  const setting = fullSetting(coil, solution, { modes });
  const { overcurrent: _trip, ...network } = burstCircuit(coil, solution, setting).network;
  return network;
}

/** When the top of the drawn coil first reaches the voltage at which it breaks out; Infinity where it does not. */
export function breakoutTimeOf(solution: Solution, network: BurstNetwork, onTime: Second): Second {
  const breakoutVoltage = solution.figures.get("topload.breakoutVoltage")?.value;
  if (breakoutVoltage === undefined || !(onTime > 0)) return Number.POSITIVE_INFINITY;
  const streamer = { breakoutVoltage, resistance: 1e6, capacitance: 1e-12 };
  const run = simulateBurst(
    { ...network, streamer },
    { onTime, endTime: onTime, burstEnd: "immediate", waveforms: false, limits },
  );
  return run.breakoutTime ?? Number.POSITIVE_INFINITY;
}

/** @param wanted  peaks and carrier are computed only where the record has them */
export function burstSeen(network: BurstNetwork, input: BurstInput, wanted: Observed): BurstSeen {
  const last = wanted.peaks.at(-1);
  const forPeaks = last === undefined ? 0 : last.time + 1.5 / input.loops.tankFrequency;
  const forCarrier = wanted.carrier === undefined ? 0 : (wanted.onTime ?? 0);
  const endTime = Math.max(forPeaks, forCarrier);
  if (!(endTime > 0)) return { peaks: [], carrier: undefined, idle: false };
  const run = simulateBurst(moved(network, input), {
    onTime: endTime,
    endTime,
    burstEnd: "immediate",
    waveforms: false,
    limits,
  });
  const idle = isIdle(run, input.loops);
  return {
    peaks: run.envelope.slice(0, wanted.peaks.length).map(({ current }) => current * input.scale),
    // Where nothing drives, a loop sees the secondary ring as it likes.
    carrier: idle && wanted.carrierFrom === "loop" ? input.loops.f1 : run.meanFrequency,
    idle,
  };
}

/** One burst of given length from rest, at the values that a match moves. */
export function burstAt(
  network: BurstNetwork,
  input: BurstInput,
  { onTime, waveforms = false }: { onTime: Second; waveforms?: boolean },
): BurstResult {
  return simulateBurst(moved(network, input), {
    onTime,
    endTime: 2 * onTime,
    burstEnd: "synchronous",
    waveforms,
    limits,
  });
}

/** The same up to a time, with its waveforms. */
export function burstWaves(
  network: BurstNetwork,
  input: BurstInput,
  { onTime, endTime }: { readonly onTime: Second; readonly endTime: Second },
): BurstResult["waveforms"] {
  return simulateBurst(moved(network, input), { onTime, endTime, burstEnd: "synchronous", limits }).waveforms;
}

function moved(network: BurstNetwork, { loops, bus, delay, lead, reversed, fixedFrequency }: BurstInput): BurstNetwork {
  const [first, ...higher] = network.modes;
  // The primary's turns move its coupling to every mode alike; top load and room hardly move any but the first.
  const coupled = first ? loops.mutual / first.mutual : 1;
  return {
    ...network,
    bus: { ...network.bus, voltage: bus },
    primary: {
      inductance: loops.tankInductance,
      resistance: loops.tankResistance,
      tankCapacitance: loops.capacitance,
    },
    modes: [
      modeOfResonance({
        frequency: loops.f1,
        energyInductance: loops.energyInductance,
        energyCapacitance: loops.energyCapacitance,
        mutual: loops.mutual,
        q: loops.q,
      }),
      ...higher.map((mode) => ({ ...mode, mutual: coupled * mode.mutual })),
    ],
    feedback: {
      ...network.feedback,
      delay,
      lead,
      reversed,
      ...(fixedFrequency === undefined ? {} : { sense: { fixedFrequency } }),
    },
  };
}
