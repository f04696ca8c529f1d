/** When a bridge that drives a pair of resonators changes: with the zeros of its current. */
import type { SquareDrive } from "./square-drive.ts";
import { curveOf } from "./square-drive.ts";
import { type Zero, zerosOf } from "./zeros.ts";

/** Change `j` of the bridge happens at `base[j] + Σ basis[j][m]·moves[m]`, the start of the drive apart. */
export interface Changes {
  readonly base: Float64Array;
  readonly basis: readonly Float64Array[];
  /** What the moves are beforehand [values]. */
  readonly usual: readonly { readonly mean: number; readonly deviation: number }[];
}

/** Delay behind the current's zero, what a threshold adds where the current is weak, and a lead that acts on its slope: in cycles. */
export const usualDelay = { mean: 0.04, deviation: 0.08 };
const usualThreshold = { mean: 0, deviation: 0.004 };
const usualLead = { mean: 0.07, deviation: 0.06 };
/** How many times longer a threshold takes at the weakest half-cycle than at the strongest, at most. */
const weakest = 25;

/** The change that belongs to one zero of the current. */
export interface ZeroSeen {
  /** Zero of the current itself. */
  readonly at: number;
  /** Zero of the current and `lead` times its slope, and how that moves per value of lead; absent where no model tells it. */
  readonly led?: { readonly at: number; readonly lead: number; readonly slope: number };
  /** Greatest current over the one that passes here. */
  readonly weakness: number;
  /** The record does not show it: it was followed from the start. */
  readonly hidden?: true;
}

/** A bridge that changes by one delay after each zero of i + lead·di/dt. */
export function followingChanges(zeros: readonly ZeroSeen[], cycle: number): Changes {
  return {
    base: Float64Array.from(zeros, ({ at, led }) =>
      led === undefined ? at : led.at + led.lead - led.lead * (1 + led.slope),
    ),
    basis: zeros.map(({ led, weakness }) =>
      Float64Array.of(1, Math.min(weakest, weakness), led === undefined ? 0 : 1 + led.slope),
    ),
    usual: [usualDelay, usualThreshold, usualLead].map(({ mean, deviation }) => ({
      mean: mean * cycle,
      deviation: deviation * cycle,
    })),
  };
}

export function changesAt({ base, basis }: Changes, moves: ArrayLike<number>): Float64Array {
  return base.map((at, j) => basis[j]!.reduce((sum, part, m) => sum + part * moves[m]!, at));
}

/** Zeros as the record shows them; `peak` is the greatest current. */
export function zerosSeen(zeros: readonly Zero[], peak: number): readonly ZeroSeen[] {
  return zeros.map(({ at, height }) => ({ at, weakness: peak / height }));
}

/** Cycles within which a zero of the model belongs to one of the record, and to one that the record hides. */
const belongs = { shown: 0.12, hidden: 0.3 };
/** Values from one of the model's curve to the next. */
const fine = 0.25;

/**
 * The record's zeros, each in the place that the model gives it: the noise is then that of the whole fit. Their number stays the record's,
 * so that no half-cycle is lost or made.
 */
export function zerosByModel(
  seen: readonly ZeroSeen[],
  drive: Pick<SquareDrive, "poles" | "real" | "imaginary" | "steps">,
  { heights, lead, cycle, peak }: { heights: Float64Array; lead: number; cycle: number; peak: number },
): readonly ZeroSeen[] {
  const [first, last] = [seen[0], seen[seen.length - 1]];
  if (first === undefined || last === undefined) return seen;
  const span = { from: Math.floor(first.at - cycle), to: last.at + cycle, every: fine };
  const current = curveOf(drive, { heights, ...span });
  const slope = curveOf(slopeOf(drive), { heights, ...span });
  const at = (ahead: number) => {
    const curve = current.map((value, n) => value + ahead * slope[n]!);
    return {
      curve,
      zeros: zerosOf(curve, {
        from: first.at - cycle / 3,
        to: span.to,
        apart: cycle / 4,
        every: fine,
        origin: span.from,
      }),
    };
  };
  const step = 0.02 * cycle;
  const ahead = Math.max(0, lead);
  const [now, then] = [at(ahead), at(ahead + step)];
  const nearest = (zeros: readonly Zero[], place: number): number =>
    zeros.reduce(
      (best, zero) => (Math.abs(zero.at - place) < Math.abs(best - place) ? zero.at : best),
      Number.POSITIVE_INFINITY,
    );
  const driven = drive.steps[drive.steps.length - 1]! + cycle / 2;
  return seen.map((one) => {
    // Behind its last step the model is not driven as the coil is.
    if (one.at > driven) return one;
    const place = nearest(now.zeros, one.at - ahead);
    const within = one.hidden ? belongs.hidden : belongs.shown;
    if (!(Math.abs(place + ahead - one.at) < within * cycle)) return one;
    const moved = (nearest(then.zeros, place - step) - place) / step;
    const n = Math.round((place - span.from) / fine);
    const steep = Math.abs((now.curve[n - 1] ?? 0) - (now.curve[n - 3] ?? 0)) / (2 * fine);
    const passing = (steep * cycle) / (2 * Math.PI);
    return {
      ...one,
      led: { at: place, lead: ahead, slope: Math.max(-1.5, Math.min(0, moved)) },
      weakness: passing > 0 ? peak / passing : one.weakness,
    };
  });
}

/** Each amplitude times its pole. */
function slopeOf<T extends Pick<SquareDrive, "poles" | "real" | "imaginary">>(drive: T): T {
  const { poles, real, imaginary } = drive;
  return {
    ...drive,
    real: poles.map(({ decay, angular }, k) => -decay * real[k]! - angular * imaginary[k]!),
    imaginary: poles.map(({ decay, angular }, k) => angular * real[k]! - decay * imaginary[k]!),
  };
}
