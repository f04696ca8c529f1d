/** The drive of one burst of a channel, where a square drive explains the burst as a whole; in samples of the record. */
import type { ChannelRole } from "../../description/record.ts";
import type { Burst } from "./bursts.ts";
import { fitDrive } from "./drive-fit.ts";
import type { Usual } from "./drive-search.ts";
import type { FloatingUsual } from "./floating-drive.ts";
import type { FreeDecay } from "./ring-down.ts";
import type { StepAnswer } from "./square-drive.ts";
import { stretchOf, varianceOf } from "./stretch.ts";
import type { EdgeFound, SignalChannel } from "./tones.ts";

export interface DriveFound {
  readonly start: EdgeFound;
  readonly end: EdgeFound;
  /** From start to end [samples]. */
  readonly length: { readonly value: number; readonly error: number };
  /** Mean of the bridge's commutations, cycles per sample. */
  readonly frequency: { readonly value: number; readonly error: number };
  /** The secondary's own, cycles per sample, where both poles show in the primary's current. */
  readonly secondary?: { readonly value: number; readonly error: number };
  readonly usual?: Usual;
  /** False where a drive that changes otherwise might look as even. */
  readonly sure: boolean;
  /** Mean square that the fit leaves, over the noise's variance. */
  readonly leftOver: number;
  /** When a floating bridge's current has stopped: from then on the secondary rings alone. */
  readonly stopped?: number;
  /** Of a bridge that floats after the drive and takes energy back, in place of `usual`. */
  readonly floating?: FloatingUsual;
}

/** Values to a cycle: the corners that commutations leave are seen in them. */
const perCycle = 12;
/** Cycles before the burst and behind the drive that are looked at. */
const before = 12;
const after = 20;

/** What a channel may show of a step of the bridge. */
export function answersOf(role: ChannelRole): readonly StepAnswer[] {
  if (role === "primaryCurrent") return ["current"];
  return role === "pickupLoop" ? ["loop", "voltage", "current"] : ["current", "loop", "voltage"];
}

/**
 * @param decay  the burst's free decay as it was found, per value of `step` samples
 * @param freeFrom  sample from which on it alone explains the signal
 */
export function burstDrive(
  { samples, converter, frequency }: SignalChannel,
  burst: Burst,
  {
    role,
    decay,
    step: decayStep,
    freeFrom,
    usual,
  }: { role: ChannelRole; decay: FreeDecay; step: number; freeFrom: number; usual?: Usual },
): DriveFound | undefined {
  if (burst.cutAtStart) return undefined;
  const step = Math.max(1, Math.floor(1 / (frequency * perCycle)));
  const cycle = 1 / frequency / step;
  const { values, from } = stretchOf(
    { samples, below: converter.below, above: converter.above },
    { from: burst.from - before * cycle * step, to: Math.min(burst.to, freeFrom + after * cycle * step), step },
  );
  const place = (sample: number) => (sample - from) / step;
  const startNear = place(burst.from);
  const quiet = varianceOf(values.subarray(0, Math.max(0, Math.floor(startNear - 3 * cycle))));
  const noise = Math.max(swinging(quiet ?? 0, converter.step ** 2 / step), decay.variance * 0.5 * (decayStep / step));
  const found = fitDrive({
    values,
    decay: withStep(decay, step / decayStep),
    startNear,
    endNear: place(freeFrom),
    cycle,
    noise,
    peak: burst.peak,
    answers: answersOf(role),
    ...(usual === undefined ? {} : { usual }),
  });
  if (found === undefined) return undefined;
  const edge = ({ at, error }: EdgeFound): EdgeFound => ({ at: from + at * step, error: error * step });
  return {
    start: edge(found.start),
    end: edge(found.end),
    length: { value: found.length.value * step, error: found.length.error * step },
    frequency: { value: found.frequency.value / step, error: found.frequency.error / step },
    ...(found.secondary === undefined
      ? {}
      : { secondary: { value: found.secondary.value / step, error: found.secondary.error / step } }),
    usual: found.usual,
    sure: found.sure,
    leftOver: found.leftOver,
  };
}

/**
 * Variance of what swings over many levels, from that of what stands still at one: there the steps of the converter hide most of the noise.
 * @param square    of a step, over the samples in a value
 * @validity        a quiet level in the middle of a step; met to a twentieth from 0.15 steps of noise on, by the normal distribution's sums
 */
function swinging(quiet: number, square: number): number {
  return Math.max(quiet, quiet > 0 ? 0.119 * square + 0.59 * quiet : square / 12);
}

/** The same decay counted in values that are `factor` times as far apart. */
function withStep(decay: FreeDecay, factor: number): FreeDecay {
  const { fit } = decay;
  return {
    ...decay,
    fit: {
      ...fit,
      terms: fit.terms.map((term) => ({ ...term, decay: term.decay * factor, angular: term.angular * factor })),
      covariance: fit.covariance.map((value) => value * factor * factor),
    },
  };
}
