/** How often bursts come and how evenly: their starts from the likeness of their signals, a line through the starts. */
import { analyticSignal } from "../../numerics/analytic-signal.ts";
import { lineThrough, medianOf } from "../../numerics/robust.ts";
import type { Burst } from "./bursts.ts";
import { type Estimate, estimateOf } from "./estimate.ts";
import { stretchOf } from "./stretch.ts";
import type { SignalChannel } from "./tones.ts";

/** Start of a burst, or of a gate, with its standard error [samples]. */
export interface Start {
  readonly at: number;
  readonly error: number;
}

export interface Repetition {
  /** [Hz] */
  readonly rate: Estimate;
  /** Standard deviation of the starts about even spacing [s]; absent for two bursts. */
  readonly jitter?: number;
  /** Bursts that it stands on. */
  readonly bursts: number;
  /** True where the intervals differ by more than a twentieth: there is no single rate. */
  readonly uneven: boolean;
  /** From burst to burst [s]. */
  readonly intervals: readonly number[];
}

const perCycle = 8;
/** Cycles of each burst that are compared. */
const compared = 60;
/** Cycles before the start that are compared too, and by which a start may be off at first. */
const margin = 4;
const mostBursts = 3000;

/**
 * Starts of bursts that begin inside the record, by the lag at which each is most like the strongest one. A burst whose signal is not
 * like it keeps the start that the envelope gives.
 */
export function startsOf(signal: SignalChannel, bursts: readonly Burst[]): readonly Start[] {
  const whole = bursts.filter(({ cutAtStart, cutAtEnd }) => !cutAtStart && !cutAtEnd);
  const begun = bursts.filter(({ cutAtStart }) => !cutAtStart);
  if (begun.length < 2) return begun.map(({ from }) => ({ at: from, error: signal.blockSize }));
  const model = (whole.length > 0 ? whole : begun).reduce((best, one) => (one.peak > best.peak ? one : best));
  const step = Math.max(1, Math.floor(1 / (signal.frequency * perCycle)));
  const cycle = 1 / signal.frequency / step;
  const length = Math.round(
    Math.min(compared * cycle, ...begun.slice(0, 50).map(({ from, to }) => (to - from) / step)) + margin * cycle,
  );
  const template = pieceOf(signal, model.from, { step, cycle, length });
  if (template === undefined) return begun.map(({ from }) => ({ at: from, error: signal.blockSize }));
  const stride = Math.ceil(begun.length / mostBursts);
  return begun
    .filter((_, i) => i % stride === 0 || i === begun.length - 1)
    .map((burst) => alignedStart(signal, burst, { model, template, step, cycle, length }));
}

interface Piece {
  /** Place of the first value in the record [samples]. */
  readonly from: number;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

function pieceOf(
  { samples, frequency }: SignalChannel,
  start: number,
  { step, cycle, length }: { step: number; cycle: number; length: number },
): Piece | undefined {
  const from = Math.max(0, start - margin * cycle * step);
  // Clipped tops stay in: they are clipped in every burst alike.
  const { values, from: first } = stretchOf(
    { samples, below: Number.NEGATIVE_INFINITY, above: Number.POSITIVE_INFINITY },
    { from, to: from + length * step, step },
  );
  if (values.length < length / 2 || values.length < 8) return undefined;
  const mean = values.reduce((sum, value) => (Number.isFinite(value) ? sum + value : sum), 0) / values.length;
  const filled = values.map((value) => (Number.isFinite(value) ? value - mean : 0));
  const centre = frequency * step;
  return { from: first, ...analyticSignal(filled, { low: 0.5 * centre, high: Math.min(0.5, 1.6 * centre) }) };
}

function alignedStart(
  signal: SignalChannel,
  burst: Burst,
  {
    model,
    template,
    step,
    cycle,
    length,
  }: { model: Burst; template: Piece; step: number; cycle: number; length: number },
): Start {
  const rough: Start = { at: burst.from, error: signal.blockSize };
  if (burst === model) return { at: burst.from, error: 0 };
  const piece = pieceOf(signal, burst.from, { step, cycle, length });
  if (piece === undefined) return rough;
  const reach = Math.ceil(3 * cycle);
  let best: Likeness | undefined;
  for (let lag = -reach; lag <= reach; lag++) {
    const likeness = likenessAt(template, piece, lag);
    if (best === undefined || likeness.real > best.real) best = likeness;
  }
  if (best === undefined || best.real < 0.7 * best.scale) return rough;
  // The phase that is left at the best whole lag, over the mean frequency, is the part of a value that is left.
  const angular = 2 * Math.PI * signal.frequency * step;
  const fine = Math.atan2(best.imaginary, best.real) / angular;
  const shift = best.lag - fine;
  const misfit = Math.max(0, 1 - best.real / best.scale);
  const error = Math.sqrt(misfit / Math.max(1, template.real.length / 2)) / angular;
  return {
    at: burst.from + (piece.from - burst.from) - (template.from - model.from) + shift * step,
    error: error * step,
  };
}

interface Likeness {
  readonly lag: number;
  readonly real: number;
  readonly imaginary: number;
  /** What `real` would be for two pieces that differ by a factor alone. */
  readonly scale: number;
}

/** Σ piece(n + lag)·conj(template(n)). */
function likenessAt(template: Piece, piece: Piece, lag: number): Likeness {
  let real = 0;
  let imaginary = 0;
  let one = 0;
  let other = 0;
  const from = Math.max(0, -lag);
  const to = Math.min(template.real.length, piece.real.length - lag);
  for (let n = from; n < to; n++) {
    const a = piece.real[n + lag]!;
    const b = piece.imaginary[n + lag]!;
    const c = template.real[n]!;
    const d = template.imaginary[n]!;
    real += a * c + b * d;
    imaginary += b * c - a * d;
    one += a * a + b * b;
    other += c * c + d * d;
  }
  return { lag, real, imaginary, scale: Math.sqrt(one * other) };
}

/** The rate from the starts. Undefined for fewer than two. @param interval of the record [s] */
export function repetitionOf(starts: readonly Start[], interval: number): Repetition | undefined {
  if (starts.length < 2) return undefined;
  const steps = starts.slice(1).map(({ at }, i) => at - starts[i]!.at);
  const usual = medianOf(steps);
  // A burst that was left out makes a double step.
  const numbers = [0];
  for (const step of steps) numbers.push(numbers[numbers.length - 1]! + Math.max(1, Math.round(step / usual)));
  const uneven = steps.some((step) => Math.abs(step / usual - Math.round(step / usual)) > 0.05);
  const line = lineThrough(
    numbers,
    starts.map(({ at }) => at),
  );
  const own = Math.sqrt(starts.reduce((sum, { error }) => sum + error * error, 0) / starts.length);
  const many = starts.length > 2;
  const error = (many ? Math.max(line.scatter, 1e-6) : own * Math.SQRT2) / Math.sqrt(line.spread);
  const period = estimateOf({ value: line.slope, error, freedom: many ? starts.length - 2 : 1e6 });
  return {
    rate: {
      value: 1 / (period.value * interval),
      low: 1 / (period.high * interval),
      high: 1 / (Math.max(period.low, period.value / 100) * interval),
    },
    ...(many ? { jitter: line.scatter * interval } : {}),
    bursts: starts.length,
    uneven,
    intervals: steps.map((step) => step * interval),
  };
}
