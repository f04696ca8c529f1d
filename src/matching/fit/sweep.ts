/** A low-level sweep: amplitude against frequency from a generator and an oscilloscope, without power. One resonance or two. */
import { levenbergMarquardt } from "../../numerics/levenberg-marquardt.ts";
import { emptyNormal, observe, solveNormal } from "../../numerics/normal-equations.ts";
import type { Hertz } from "../../units/si.ts";
import type { Tone } from "./observed.ts";

export interface Sweep {
  /** [Hz], in any order. */
  readonly frequency: ArrayLike<number>;
  /** Linear, in any unit. */
  readonly amplitude: ArrayLike<number>;
}

/** Fewer points about a peak say nothing of its width. */
const fewestPoints = 8;
/** A second peak counts from this part of the greatest on, and where the valley between falls this far below it. */
const second = { share: 0.08, valley: 0.75 };
/** Numbers of one resonance: height, the logarithms of frequency over the guess and of Q, and the height's imaginary part. */
const perPeak = 4;
/** From so many points on, what the neighbourhood does to a peak is fitted too: the phase between two, and the generator's slope. */
const enoughPoints = 20;

/**
 * Resonances of a sweep, lower first.
 *
 * A(f) = (f/fm)^s·|b + Σ c/(1 + jQ·(f/f0 − f0/f))|, fitted to the amplitudes; errors from the scatter about the fit. With few points c is
 * real and s is 0; else the second c has a phase, as the loss of a coupled pair gives it, and s is the slope of generator and probe.
 *
 * @returns one tone or two; none where no peak stands inside the sweep
 * @validity any spacing of the points, three within the width of each peak; generator and probe loading the coil little
 * @source levenberg-marquardt, quality-factor
 */
export function sweepTones({ frequency, amplitude }: Sweep): readonly Tone[] {
  const points = Array.from(frequency, (f, n) => ({ f, a: amplitude[n] ?? Number.NaN }))
    .filter(({ f, a }) => f > 0 && Number.isFinite(f) && Number.isFinite(a))
    .sort((x, y) => x.f - y.f);
  if (points.length < fewestPoints) return [];
  const guesses = peaksOf(points);
  // Noise makes a second peak that the fit of both then shows to be none.
  for (const peaks of guesses.length > 1 ? [guesses, guesses.slice(0, 1)] : [guesses]) {
    const tones = tonesOf(points, peaks);
    if (tones.every((tone) => isPeak(tone, points))) return tones;
  }
  return [];
}

/** A peak whose place is known better than to a quarter of its width, and its width better than to a half, inside the sweep. */
function isPeak({ frequency, q }: Tone, points: readonly Point[]): boolean {
  return (
    frequency.value > points[0]!.f &&
    frequency.value < points[points.length - 1]!.f &&
    q !== undefined &&
    frequency.error < frequency.value / q.value / 4 &&
    q.error < q.value / 2
  );
}

function tonesOf(points: readonly Point[], guesses: readonly Guess[]): readonly Tone[] {
  if (guesses.length === 0) return [];
  const greatest = points.reduce((most, { a }) => Math.max(most, Math.abs(a)), 0);
  const whole = Float64Array.from([
    ...guesses.flatMap(({ height, q }) => [height / greatest, 0, Math.log(q), 0]),
    0,
    0,
  ]);
  const residualsOf = (p: Float64Array) =>
    Float64Array.from(points, ({ f, a }) => modelAt(f, p, guesses) - Math.abs(a) / greatest);
  // First what every sweep has, then what many points can tell as well.
  const always = [...whole.keys()].filter((n) => n === perPeak * guesses.length || isAlways(n, guesses.length));
  const more = [...whole.keys()].filter((n) => !always.includes(n) && n !== perPeak - 1);
  const first = fitted(whole, always, residualsOf);
  const {
    at: solution,
    fit,
    free,
  } = points.length >= enoughPoints ? fitted(first.at, [...always, ...more], residualsOf) : first;
  const freedom = Math.max(1, points.length - free.length);
  const known = errorsOf(fit.jacobian, free.length, fit.squares / freedom);
  const errors = new Map(free.map((n, at) => [n, known[at]!]));
  return guesses
    .map(({ at }, k): Tone => {
      const f0 = at * Math.exp(solution[perPeak * k + 1]!);
      const q = Math.exp(solution[perPeak * k + 2]!);
      return {
        frequency: { value: f0, error: f0 * errors.get(perPeak * k + 1)! },
        q: { value: q, error: q * errors.get(perPeak * k + 2)! },
      };
    })
    .sort((x, y) => x.frequency.value - y.frequency.value);
}

/** Height, frequency and Q of each peak. */
const isAlways = (n: number, peaks: number): boolean => n < perPeak * peaks && n % perPeak < perPeak - 1;

/** Fits some of the numbers, the others staying where they are. */
function fitted(
  from: Float64Array,
  free: readonly number[],
  residualsOf: (p: Float64Array) => Float64Array,
): { at: Float64Array; free: readonly number[]; fit: ReturnType<typeof levenbergMarquardt> } {
  const placed = (values: Float64Array): Float64Array => {
    const all = from.slice();
    free.forEach((n, k) => {
      all[n] = values[k]!;
    });
    return all;
  };
  const residuals = (values: Float64Array) => residualsOf(placed(values));
  const fit = levenbergMarquardt({
    start: Float64Array.from(free, (n) => from[n]!),
    residualsOf: residuals,
    jacobianOf: (values, now) => slopes(values, now, residuals),
    mostIterations: 80,
  });
  return { at: placed(fit.solution), free, fit };
}

interface Point {
  readonly f: Hertz;
  readonly a: number;
}

interface Guess {
  readonly at: Hertz;
  readonly height: number;
  readonly q: number;
}

/** The greatest peak inside the sweep, and a second one with a valley between. */
function peaksOf(points: readonly Point[]): readonly Guess[] {
  const inside = points.flatMap((point, n) => {
    const [before, after] = [points[n - 1], points[n + 1]];
    return before && after && point.a >= before.a && point.a > after.a ? [{ ...point, n }] : [];
  });
  const [first, ...rest] = inside.sort((x, y) => y.a - x.a);
  if (!first) return [];
  const other = rest.find(({ a, n }) => {
    const between = points.slice(Math.min(n, first.n), Math.max(n, first.n) + 1);
    return a > second.share * first.a && between.some((point) => point.a < second.valley * a);
  });
  return [first, ...(other ? [other] : [])].map(({ f, a, n }) => ({ at: f, height: a, q: widthQ(points, n) }));
}

/** Q from where the amplitude has fallen to 0.71 of the peak on its steeper side. */
function widthQ(points: readonly Point[], n: number): number {
  const { f, a } = points[n]!;
  let [low, high] = [n, n];
  while (low > 0 && points[low]!.a > a * Math.SQRT1_2) low--;
  while (high < points.length - 1 && points[high]!.a > a * Math.SQRT1_2) high++;
  const half = Math.min(
    f - points[low]!.f || Number.POSITIVE_INFINITY,
    points[high]!.f - f || Number.POSITIVE_INFINITY,
  );
  return Number.isFinite(half) && half > 0 ? Math.max(3, f / (2 * half)) : 50;
}

function modelAt(f: Hertz, p: Float64Array, guesses: readonly Guess[]): number {
  const last = perPeak * guesses.length;
  let real = p[last]!;
  let imaginary = 0;
  guesses.forEach(({ at }, k) => {
    const [height, turned] = [p[perPeak * k]!, p[perPeak * k + 3]!];
    const f0 = at * Math.exp(p[perPeak * k + 1]!);
    const x = Math.exp(p[perPeak * k + 2]!) * (f / f0 - f0 / f);
    const size = 1 + x * x;
    real += (height + turned * x) / size;
    imaginary += (turned - height * x) / size;
  });
  return Math.hypot(real, imaginary) * (f / guesses[0]!.at) ** p[last + 1]!;
}

function slopes(p: Float64Array, now: Float64Array, residualsOf: (p: Float64Array) => Float64Array): Float64Array {
  const out = new Float64Array(now.length * p.length);
  p.forEach((value, k) => {
    const moved = p.slice();
    const step = 1e-7 * Math.max(1, Math.abs(value));
    moved[k] = value + step;
    residualsOf(moved).forEach((residual, row) => {
      out[row * p.length + k] = (residual - now[row]!) / step;
    });
  });
  return out;
}

/** Standard errors of the parameters from the slopes; 1 where they cannot be told apart. */
function errorsOf(jacobian: Float64Array, size: number, variance: number): Float64Array {
  const normal = emptyNormal(size);
  for (let row = 0; row * size < jacobian.length; row++)
    observe(normal, jacobian.subarray(row * size, (row + 1) * size), 0);
  const inverse = solveNormal(normal)?.inverse;
  return Float64Array.from({ length: size }, (_, k) => (inverse ? Math.sqrt(variance * inverse[k * size + k]!) : 1));
}
