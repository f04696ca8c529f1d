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
/** Numbers of one resonance: height, the logarithms of frequency over the guess and of Q. */
const perPeak = 3;

/**
 * Resonances of a sweep, lower first.
 *
 * A(f) = |b + Σ c/(1 + 2jQ·(f/f0 − 1))| with real c and b, fitted to the amplitudes; errors from the scatter about the fit.
 *
 * @returns one tone or two; none where no peak stands inside the sweep
 * @validity peaks narrower than a tenth of their frequency, generator and probe loading the coil little
 * @source levenberg-marquardt, quality-factor
 */
export function sweepTones({ frequency, amplitude }: Sweep): readonly Tone[] {
  const points = Array.from(frequency, (f, n) => ({ f, a: amplitude[n] ?? Number.NaN }))
    .filter(({ f, a }) => f > 0 && Number.isFinite(f) && Number.isFinite(a))
    .sort((x, y) => x.f - y.f);
  if (points.length < fewestPoints) return [];
  const guesses = peaksOf(points);
  if (guesses.length === 0) return [];
  const greatest = Math.max(...points.map(({ a }) => Math.abs(a)));
  const start = Float64Array.from([...guesses.flatMap(({ height, q }) => [height / greatest, 0, Math.log(q)]), 0]);
  const residualsOf = (p: Float64Array) =>
    Float64Array.from(points, ({ f, a }) => modelAt(f, p, guesses) - Math.abs(a) / greatest);
  const fit = levenbergMarquardt({
    start,
    residualsOf,
    jacobianOf: (p, now) => slopes(p, now, residualsOf),
    mostIterations: 60,
  });
  const freedom = Math.max(1, points.length - start.length);
  const variance = fit.squares / freedom;
  const errors = errorsOf(fit.jacobian, start.length, variance);
  return guesses
    .map(({ at }, k): Tone => {
      const f0 = at * Math.exp(fit.solution[perPeak * k + 1]!);
      const q = Math.exp(fit.solution[perPeak * k + 2]!);
      return {
        frequency: { value: f0, error: f0 * errors[perPeak * k + 1]! },
        q: { value: q, error: q * errors[perPeak * k + 2]! },
      };
    })
    .sort((x, y) => x.frequency.value - y.frequency.value);
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
    return a > second.share * first.a && Math.min(...between.map((point) => point.a)) < second.valley * a;
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
  let real = p[perPeak * guesses.length]!;
  let imaginary = 0;
  guesses.forEach(({ at }, k) => {
    const height = p[perPeak * k]!;
    const x = 2 * Math.exp(p[perPeak * k + 2]!) * (f / (at * Math.exp(p[perPeak * k + 1]!)) - 1);
    real += height / (1 + x * x);
    imaginary -= (height * x) / (1 + x * x);
  });
  return Math.hypot(real, imaginary);
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
