/** Both poles and the coupling from the driven part of a record's strongest burst, where the tank's current was recorded. */
import type { Burst } from "./bursts.ts";
import type { ChannelReading } from "./channel.ts";
import { readDrive } from "./drive-alone.ts";
import { type DrivenBurst, startSlack } from "./driven-burst.ts";
import { type Estimate, estimateOf } from "./estimate.ts";
import { stepResponse } from "./pair-answer.ts";
import { readPair } from "./pair-drive.ts";
import type { PairFitted } from "./pair-fit.ts";
import { stretchOf, varianceOf } from "./stretch.ts";
import type { Pulse } from "./two-level.ts";

export interface DrivenPoles {
  /** Damped, as in a decay [Hz]. */
  readonly lower: Estimate;
  readonly upper: Estimate;
  readonly beat: Estimate;
  /** Secondary and tank, each alone with the other open [Hz]. */
  readonly secondary: Estimate;
  readonly tank: Estimate;
  readonly coupling: Estimate;
  /** Cycles of the drive that they stand on, and cycles that it had. */
  readonly cycles: number;
  readonly driven: number;
}

/** Values to a cycle that the fit works on, and fewest samples to one. */
const perCycle = 12;
const fewestSamples = 8;
/** Cycles before the burst that are looked at, and cycles before the drive's end that are left out. */
const beforeBurst = 10;
const clear = 0.75;

/**
 * Undefined where no burst begins in the record, or no square drive explains it.
 *
 * @param drives    of the interrupter's gate or the bridge, where the record has them [samples]
 * @param interval  of the record [s]
 */
export function drivenPoles(
  reading: ChannelReading,
  { drives, interval }: { drives: readonly Pulse[]; interval: number },
): DrivenPoles | undefined {
  const burst = strongest(reading.segments.bursts);
  if (burst === undefined || 1 / reading.rough.frequency < fewestSamples) return undefined;
  const place = edgesOf(reading, burst, drives);
  if (place === undefined) return undefined;
  const { driven, step } = drivenBurst(reading, place);
  const found = readPair(driven);
  if (found === undefined) return undefined;
  const cycles = (found.until - driven.start) / driven.cycle;
  const figures = figuresOf(found.fitted, { time: interval * step, cycles });
  if (!isTold(figures.lower) || !isTold(figures.upper)) return undefined;
  return {
    ...figures,
    cycles,
    driven: (driven.end - driven.start) / driven.cycle,
  };
}

/** Poles whose interval is wider than this part on either side are not worth saying: few cycles may be explained by a wrong pair too. */
const told = 4e-3;
const isTold = ({ value, low, high }: Estimate): boolean => high - low < 2 * told * value;

function strongest(bursts: readonly Burst[]): Burst | undefined {
  return bursts
    .filter(({ cutAtStart }) => !cutAtStart)
    .reduce<Burst | undefined>((best, one) => (one.peak > (best?.peak ?? 0) ? one : best), undefined);
}

/** Where the current begins, and up to where it is surely driven: the earlier of what the current and what the gate says. */
function edgesOf(
  { drives: own, signal }: ChannelReading,
  burst: Burst,
  drives: readonly Pulse[],
): { start: number; end: number } | undefined {
  const known = own.find(({ driveStart }) => driveStart !== undefined && isIn(burst, driveStart.at));
  const edges = known ?? readDrive(signal, burst);
  const gate = drives.find(({ from, to }) => to > burst.from && from < burst.to);
  if (edges?.driveStart === undefined) return undefined;
  const ends = [
    ...(edges.driveEnd === undefined ? [] : [edges.driveEnd.at - 2 * edges.driveEnd.error]),
    ...(gate === undefined ? [] : [gate.to]),
  ];
  // Without either the current is still driven where it is greatest.
  const end = ends.length === 0 ? burst.peakAt : Math.min(...ends);
  return { start: edges.driveStart.at, end: end - clear / signal.frequency };
}

function isIn({ from, to }: Burst, at: number): boolean {
  return at > from - (to - from) / 2 && at < to;
}

function drivenBurst(
  { signal: { samples, frequency, converter } }: ChannelReading,
  { start, end }: { start: number; end: number },
): { driven: DrivenBurst; step: number } {
  const step = Math.max(1, Math.floor(1 / (frequency * perCycle)));
  const { values, from } = stretchOf(
    { samples, below: converter.below, above: converter.above },
    { from: start - beforeBurst / frequency, to: end + 1 / frequency, step },
  );
  const placeOf = (sample: number) => (sample - from) / step;
  const cycle = 1 / frequency / step;
  const before = values.subarray(0, Math.max(0, Math.floor(placeOf(start) - startSlack.earlier * cycle)));
  const rest = before.filter((value) => Number.isFinite(value));
  const offset = rest.reduce((sum, value) => sum + value, 0) / Math.max(1, rest.length);
  const noise = Math.max(varianceOf(rest) ?? 0, (rounding * converter.step) ** 2 / step);
  const swinging = values.map((value) => value - offset);
  const peak = swinging.reduce((most, value) => (value - value === 0 ? Math.max(most, Math.abs(value)) : most), 0);
  return {
    step,
    driven: { values: swinging, noise, peak, cycle, start: placeOf(start), end: placeOf(end) },
  };
}

/** Standard deviation of what a converter rounds away, in its steps. */
const rounding = 0.29;

/**
 * What a bridge that is no perfect square and the secondary's higher modes leave, as standard deviations: in parts of a frequency, in cycles
 * that a phase is off over the drive, and in parts of the coupling.
 */
const doubt = { frequency: 1.5e-4, phase: 9e-3, coupling: 2e-3 };
/** Values that the errors stand on are many. */
const freedom = 60;

function figuresOf(
  { pair, covariance, left }: PairFitted,
  { time, cycles }: { time: number; cycles: number },
): Omit<DrivenPoles, "cycles" | "driven"> {
  const at = Float64Array.of(
    Math.log(pair.tank),
    Math.log(pair.secondary),
    pair.coupling,
    Math.log(pair.tankQ),
    Math.log(pair.secondaryQ),
  );
  const perHertz = 1 / (2 * Math.PI * time);
  const figures = (x: Float64Array) => {
    const [tank = 0, secondary = 0, coupling = 0, tankQ = 0, secondaryQ = 0] = x;
    const all = {
      tank: Math.exp(tank),
      secondary: Math.exp(secondary),
      coupling,
      tankQ: Math.exp(tankQ),
      secondaryQ: Math.exp(secondaryQ),
    };
    const [lower = 0, upper = 0] = stepResponse(all).poles.map(({ angular }) => angular);
    return {
      lower: lower * perHertz,
      upper: upper * perHertz,
      beat: (upper - lower) * perHertz,
      secondary: all.secondary * perHertz,
      tank: all.tank * perHertz,
      coupling,
    };
  };
  const now = figures(at);
  const moved = at.map((_, p) => p).length;
  const step = 1e-5;
  const slopes = Array.from({ length: moved }, (_, p) => {
    const x = at.slice();
    x[p]! += step;
    return figures(x);
  });
  const estimate = (id: keyof typeof now, least: number): Estimate => {
    let variance = 0;
    for (let a = 0; a < moved; a++)
      for (let b = 0; b < moved; b++)
        variance +=
          ((slopes[a]![id] - now[id]) / step) * ((slopes[b]![id] - now[id]) / step) * covariance[a * moved + b]!;
    // Where more is left than noise the errors are larger alike.
    const error = Math.hypot(Math.sqrt(Math.max(1, left) * Math.max(0, variance)), least);
    return estimateOf({ value: now[id], error, freedom });
  };
  const part = Math.hypot(doubt.frequency, doubt.phase / cycles);
  return {
    lower: estimate("lower", part * now.lower),
    upper: estimate("upper", part * now.upper),
    beat: estimate("beat", part * Math.hypot(now.lower, now.upper)),
    secondary: estimate("secondary", part * now.secondary),
    tank: estimate("tank", part * now.tank),
    coupling: estimate("coupling", doubt.coupling * now.coupling),
  };
}
