/** Damped sinusoids fitted to samples: variable projection, that is Gauss–Newton on decays and frequencies with the amplitudes solved for. */
import { emptyNormal, type Normal, solveNormal } from "./normal-equations.ts";
import { OutOfDomain } from "./out-of-domain.ts";

/** One term Re(A·exp((−decay + i·angular)·t)), t counted in samples from the first one. */
export interface DampedPole {
  /** Per sample. */
  readonly decay: number;
  /** Radians per sample. */
  readonly angular: number;
}

export interface DampedTerm extends DampedPole {
  /** A at the first sample: cosine and −sine amplitude. */
  readonly real: number;
  readonly imaginary: number;
}

export interface DampedFit {
  readonly terms: readonly DampedTerm[];
  readonly offset: number;
  /** Σ residual² over the samples that count. */
  readonly squares: number;
  /** Samples that count. */
  readonly count: number;
  /** Parameters that were fitted, the offset included. */
  readonly parameters: number;
  /** [samples]; 0 where a sample does not count. */
  readonly residual: Float64Array;
  /**
   * Unscaled covariance of (decay, angular) of every term, [2·terms × 2·terms], in the order decay₁, angular₁, decay₂ …; times the
   * variance of the noise per sample it is the covariance.
   */
  readonly covariance: Float64Array;
  readonly converged: boolean;
}

/**
 * Fits Σ Re(A·exp(s·n)) + offset.
 *
 * @param samples  NaN where a sample does not count
 * @param starts   decays and frequencies to begin from, one to four; near enough for the method's basin (a few bins)
 * @param options  `mostSteps`: steps after which the fit is given as it stands
 * @returns  undefined where the terms cannot be told apart or too few samples count
 * @source   G. H. Golub, V. Pereyra, SIAM J. Numer. Anal. 10 (1973) 413, in the form of L. Kaufman, BIT 15 (1975) 49; from memory
 */
export function fitDamped(
  samples: Float64Array,
  starts: readonly DampedPole[],
  { mostSteps = 40 }: { mostSteps?: number } = {},
): DampedFit | undefined {
  if (starts.length < 1 || starts.length > 4)
    throw new OutOfDomain("fitDamped", `one to four terms, got ${starts.length}`);
  let poles = starts;
  const filled = samples.map((value) => (Number.isNaN(value) ? 0 : value));
  let state = project(samples, filled, poles);
  if (state === undefined) return undefined;
  let damping = 1e-3;
  let converged = false;
  for (let step = 0; step < mostSteps && !converged; step++) {
    const full = linearised(state);
    let accepted = false;
    for (let trial = 0; trial < 12 && !accepted; trial++) {
      const move = solveNormal(full, { damping, dampedFrom: state.linear.length });
      if (move === undefined) {
        damping = Math.max(damping, 1e-6) * 10;
        continue;
      }
      const next = moved(poles, move.solution, state.linear.length);
      const candidate = next === undefined ? undefined : project(samples, filled, next);
      if (next !== undefined && candidate !== undefined && candidate.squares <= state.squares) {
        // A gain of a thousandth of the noise's variance moves nothing that the noise does not move more.
        converged = state.squares - candidate.squares <= (1e-3 * candidate.squares) / candidate.count;
        poles = next;
        state = candidate;
        damping = Math.max(damping / 10, 1e-12);
        accepted = true;
      } else damping *= 10;
    }
    if (!accepted) {
      converged = damping > 1;
      break;
    }
  }
  return finished(poles, state, converged);
}

/** Re and Im of exp(s·n) of every term: [2·terms] columns of as many values as there are samples. */
function basisOf(poles: readonly DampedPole[], count: number): readonly Float64Array[] {
  return poles.flatMap((pole) => {
    const real = new Float64Array(count);
    const imaginary = new Float64Array(count);
    walk(pole, real, imaginary);
    return [real, imaginary];
  });
}

function walk({ decay, angular }: DampedPole, real: Float64Array, imaginary: Float64Array): void {
  const turnRe = Math.exp(-decay) * Math.cos(angular);
  const turnIm = Math.exp(-decay) * Math.sin(angular);
  let re = 1;
  let im = 0;
  for (let n = 0; n < real.length; n++) {
    real[n] = re;
    // Re(A·E) = Re A·Re E − Im A·Im E: with this sign the columns are multiplied by Re A and Im A.
    imaginary[n] = -im;
    const next = re * turnRe - im * turnIm;
    im = re * turnIm + im * turnRe;
    re = next;
  }
}

/** Columns with a 1 for the offset, and 0 throughout where a sample does not count. */
function linearColumns(samples: Float64Array, poles: readonly DampedPole[]): readonly Float64Array[] {
  const columns = [...basisOf(poles, samples.length), new Float64Array(samples.length).fill(1)];
  for (let n = 0; n < samples.length; n++) if (Number.isNaN(samples[n]!)) for (const column of columns) column[n] = 0;
  return columns;
}

/** Normal equations of whole columns; side from `values`, whose gaps meet zeros. */
function normalOf(columns: readonly Float64Array[], values: Float64Array): Normal {
  const size = columns.length;
  const normal = emptyNormal(size);
  for (let a = 0; a < size; a++) {
    const left = columns[a]!;
    normal.side[a] = dot(left, values);
    for (let b = 0; b <= a; b++) normal.matrix[a * size + b] = dot(left, columns[b]!);
  }
  return normal;
}

function dot(a: Float64Array, b: Float64Array): number {
  let even = 0;
  let odd = 0;
  const pairs = a.length & -2;
  for (let n = 0; n < pairs; n += 2) {
    even += a[n]! * b[n]!;
    odd += a[n + 1]! * b[n + 1]!;
  }
  // A loop of one turn or none: a branch that was never taken would be compiled again and again.
  for (let n = pairs; n < a.length; n++) even += a[n]! * b[n]!;
  return even + odd;
}

/** Amplitudes for given poles. `filled`: the samples with 0 in their gaps. */
function project(samples: Float64Array, filled: Float64Array, poles: readonly DampedPole[]): Projected | undefined {
  const columns = linearColumns(samples, poles);
  const offset = columns[columns.length - 1]!;
  const count = dot(offset, offset);
  if (count < 2 * columns.length) return undefined;
  const solved = solveNormal(normalOf(columns, filled));
  if (solved === undefined) return undefined;
  const linear = solved.solution;
  // The difference of two large sums would lose the small residual: it is computed value by value.
  const residual = filled.slice();
  for (let a = 0; a < columns.length; a++) take(residual, linear[a]!, columns[a]!);
  return { linear, columns, residual, squares: dot(residual, residual), count };
}

function take(from: Float64Array, amplitude: number, column: Float64Array): void {
  for (let n = 0; n < from.length; n++) from[n]! -= amplitude * column[n]!;
}

interface Projected {
  /** Real and imaginary part of each term's amplitude, then the offset. */
  readonly linear: Float64Array;
  readonly columns: readonly Float64Array[];
  readonly residual: Float64Array;
  readonly squares: number;
  readonly count: number;
}

/** Normal equations of all parameters about the present ones: linear ones first, then decay and angular of each term. */
function linearised({ linear, columns, residual }: Projected): Normal {
  const count = residual.length;
  const slopes: Float64Array[] = [];
  for (let k = 0; k < linear.length - 1; k += 2) {
    const byDecay = new Float64Array(count);
    const byAngular = new Float64Array(count);
    slope(byDecay, columns[k]!, columns[k + 1]!, { a: -linear[k]!, b: -linear[k + 1]! });
    slope(byAngular, columns[k]!, columns[k + 1]!, { a: -linear[k + 1]!, b: linear[k]! });
    slopes.push(byDecay, byAngular);
  }
  return normalOf([...columns, ...slopes], residual);
}

/** n·(a·real + b·imaginary) */
function slope(
  into: Float64Array,
  real: Float64Array,
  imaginary: Float64Array,
  { a, b }: { a: number; b: number },
): void {
  for (let n = 0; n < into.length; n++) into[n] = n * (a * real[n]! + b * imaginary[n]!);
}

/** Poles after a step; undefined where it leads out of what a decaying tone can be. */
function moved(poles: readonly DampedPole[], step: Float64Array, from: number): readonly DampedPole[] | undefined {
  const next = poles.map(({ decay, angular }, k) => ({
    decay: decay + step[from + 2 * k]!,
    angular: angular + step[from + 2 * k + 1]!,
  }));
  return next.every(({ decay, angular }) => Math.abs(decay) < 1 && angular > 0 && angular < Math.PI) ? next : undefined;
}

function finished(poles: readonly DampedPole[], state: Projected, converged: boolean): DampedFit | undefined {
  const { linear, squares, count, residual } = state;
  const solved = solveNormal(linearised(state));
  if (solved === undefined) return undefined;
  const from = linear.length;
  const size = from + 2 * poles.length;
  const nonlinear = 2 * poles.length;
  const covariance = new Float64Array(nonlinear * nonlinear);
  for (let a = 0; a < nonlinear; a++)
    for (let b = 0; b < nonlinear; b++) covariance[a * nonlinear + b] = solved.inverse[(from + a) * size + from + b]!;
  return {
    terms: poles.map((pole, k) => ({ ...pole, real: linear[2 * k]!, imaginary: linear[2 * k + 1]! })),
    offset: linear[from - 1]!,
    squares,
    count,
    parameters: size,
    residual,
    covariance,
    converged,
  };
}

/** What the fit gives at sample `n`, which may lie outside the samples it was fitted to. */
export function dampedAt({ terms, offset }: Pick<DampedFit, "terms" | "offset">, n: number): number {
  return terms.reduce(
    (sum, { decay, angular, real, imaginary }) =>
      sum + Math.exp(-decay * n) * (real * Math.cos(angular * n) - imaginary * Math.sin(angular * n)),
    offset,
  );
}
