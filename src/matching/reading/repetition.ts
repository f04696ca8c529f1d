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
/** What is compared lies between these parts of the carrier. */
const band = { low: 0.5, high: 1.6 };
/** Cycles of each burst that are compared. */
const compared = 60;
/** Cycles before the start that are compared too. */
const margin = 4;
/** Cycles by which the envelope may have a start wrong. */
const reachCycles = 3;
/** Cycles at the ends of a piece that its analytic signal has wrong. */
const endCycles = 5;
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
  /** Place of value 0 in the record [samples]. */
  readonly from: number;
  /** Values before 0 that are there too. */
  readonly before: number;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

interface Window {
  readonly step: number;
  readonly cycle: number;
  /** Values that are compared. */
  readonly length: number;
}

/** The signal from `margin` cycles before `start` on, with as much beside it as lags and the ends of the transform need. */
function pieceOf(
  { samples, frequency }: SignalChannel,
  start: number,
  { step, cycle, length }: Window,
): Piece | undefined {
  const beside = Math.ceil((reachCycles + endCycles) * cycle);
  const first = Math.round(start - margin * cycle * step);
  // Clipped tops stay in: they are clipped in every burst alike.
  const { values, from } = stretchOf(
    { samples, below: Number.NEGATIVE_INFINITY, above: Number.POSITIVE_INFINITY },
    { from: first - beside * step, to: first + (length + beside) * step, step },
  );
  const place = first + (step - 1) / 2;
  const before = Math.floor((place - from) / step);
  if (values.length < before + length / 2 || values.length < 8) return undefined;
  const centre = frequency * step;
  const edges = { low: band.low * centre, high: Math.min(0.5, band.high * centre) };
  return { from: from + before * step, before, ...analyticSignal(aboutMean(values), edges) };
}

/** The finite values less their mean; 0 for the others. */
function aboutMean(values: Float64Array): Float64Array {
  let [sum, count] = [0, 0];
  for (let n = 0; n < values.length; n++) {
    const value = values[n]!;
    if (value - value !== 0) continue;
    sum += value;
    count++;
  }
  const mean = sum / Math.max(1, count);
  const about = new Float64Array(values.length);
  for (let n = 0; n < values.length; n++) {
    const value = values[n]!;
    if (value - value === 0) about[n] = value - mean;
  }
  return about;
}

function alignedStart(
  signal: SignalChannel,
  burst: Burst,
  { model, template, ...window }: Window & { model: Burst; template: Piece },
): Start {
  const { step, cycle, length } = window;
  const rough: Start = { at: burst.from, error: signal.blockSize };
  if (burst === model) return { at: burst.from, error: 0 };
  const piece = pieceOf(signal, burst.from, window);
  if (piece === undefined) return rough;
  const reach = Math.ceil(reachCycles * cycle);
  const power = powerOf(template, template.before, template.before + length);
  const likenesses = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    likenessAt(template, piece, { lag: i - reach, length, power }),
  );
  // Whole lags meet the phase by chance: of those that meet it to half a lag the greatest coherence is the true one.
  const angular = 2 * Math.PI * signal.frequency * step;
  const best = likenesses
    .filter(({ real, imaginary }) => Math.abs(Math.atan2(imaginary, real)) <= 0.6 * angular)
    .reduce<Likeness | undefined>(
      (most, one) => (most === undefined || coherence(one) > coherence(most) ? one : most),
      undefined,
    );
  if (best === undefined || coherence(best) < 0.7) return rough;
  // The phase that is left at the best whole lag, over the mean frequency, is the part of a value that is left.
  const fine = Math.atan2(best.imaginary, best.real) / angular;
  // What noise does not explain is a burst that truly runs differently: its start is unsure by as much as its phase.
  const misfit = Math.max(0, 1 - coherence(best));
  const byNoise = Math.min(misfit, noiseShare(template, length));
  const independent = length * (band.high - band.low) * signal.frequency * step;
  const error = Math.sqrt(byNoise / independent + (misfit - byNoise)) / angular;
  return { at: model.from + piece.from - template.from + (best.lag - fine) * step, error: error * step };
}

/** What noise takes from the coherence of two pieces: its power before the burst over that of the burst. */
function noiseShare(piece: Piece, length: number): number {
  const { before } = piece;
  const mean = (from: number, to: number) => powerOf(piece, from, to) / Math.max(1, to - from);
  const quiet = Math.floor(before / 2);
  return quiet < 4 ? 1 : mean(quiet, before) / Math.max(mean(before, before + length), Number.MIN_VALUE);
}

interface Likeness {
  readonly lag: number;
  readonly real: number;
  readonly imaginary: number;
  /** Product of the two pieces' norms where they overlap. */
  readonly scale: number;
}

/** 1 for two pieces that differ by a factor alone. */
function coherence({ real, imaginary, scale }: Likeness): number {
  return scale > 0 ? Math.hypot(real, imaginary) / scale : 0;
}

/** Σ piece(n + lag)·conj(template(n)) over the compared values; beyond its ends a piece is silent. */
function likenessAt(
  template: Piece,
  piece: Piece,
  { lag, length, power }: { lag: number; length: number; power: number },
): Likeness {
  let real = 0;
  let imaginary = 0;
  const [at, against] = [lag + piece.before, template.before];
  const to = Math.min(length, piece.real.length - at, template.real.length - against);
  for (let n = Math.max(0, -at); n < to; n++) {
    const a = piece.real[n + at]!;
    const b = piece.imaginary[n + at]!;
    const c = template.real[n + against]!;
    const d = template.imaginary[n + against]!;
    real += a * c + b * d;
    imaginary += b * c - a * d;
  }
  return { lag, real, imaginary, scale: Math.sqrt(powerOf(piece, at, at + length) * power) };
}

/** Σ modulus² of a piece from one value to another. */
function powerOf({ real, imaginary }: Piece, from: number, to: number): number {
  let sum = 0;
  for (let n = Math.max(0, from); n < Math.min(to, real.length); n++) sum += real[n]! ** 2 + imaginary[n]! ** 2;
  return sum;
}

/** What the last burst left shifts the start of the next by about this part of a cycle, noise or not. */
const startDoubt = 0.005;

/**
 * The rate from the starts. Undefined for fewer than two.
 * @param interval  of the record [s]
 * @param cycle     samples to a cycle of the signal; 0 for the edges of a gate
 */
export function repetitionOf(
  starts: readonly Start[],
  { interval, cycle }: { interval: number; cycle: number },
): Repetition | undefined {
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
  // The scatter of many starts holds the doubt of each, but edges may all meet the samples alike: then a few scatter by next to nothing.
  const edges = cycle === 0 ? own : 1e-6;
  const doubt = many ? edges : Math.hypot(own, startDoubt * cycle);
  const scattered = many && line.scatter > doubt;
  const error = (scattered ? line.scatter : doubt) / Math.sqrt(line.spread);
  const period = estimateOf({ value: line.slope, error, freedom: scattered ? starts.length - 2 : 1e6 });
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
