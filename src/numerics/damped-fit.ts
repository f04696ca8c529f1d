/** Damped sinusoids fitted to samples: variable projection, that is Gauss–Newton on decays and frequencies with the amplitudes solved for. */
import { emptyNormal, type Normal, observe, solveNormal } from "./normal-equations.ts";
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

const mostSteps = 40;

/**
 * Fits Σ Re(A·exp(s·n)) + offset.
 *
 * @param samples  NaN where a sample does not count
 * @param starts   decays and frequencies to begin from, one to four; near enough for the method's basin (a few bins)
 * @returns  undefined where the terms cannot be told apart or too few samples count
 * @source   G. H. Golub, V. Pereyra, SIAM J. Numer. Anal. 10 (1973) 413, in the form of L. Kaufman, BIT 15 (1975) 49; from memory
 */
export function fitDamped(samples: Float64Array, starts: readonly DampedPole[]): DampedFit | undefined {
  if (starts.length < 1 || starts.length > 4)
    throw new OutOfDomain("fitDamped", `one to four terms, got ${starts.length}`);
  let poles = starts;
  let state = project(samples, poles);
  if (state === undefined) return undefined;
  let damping = 1e-3;
  let converged = false;
  for (let step = 0; step < mostSteps && !converged; step++) {
    const full = linearised(samples, poles, state);
    let accepted = false;
    for (let trial = 0; trial < 12 && !accepted; trial++) {
      const move = solveNormal(full, { damping, dampedFrom: state.linear.length });
      if (move === undefined) {
        damping = Math.max(damping, 1e-6) * 10;
        continue;
      }
      const next = moved(poles, move.solution, state.linear.length);
      const candidate = next === undefined ? undefined : project(samples, next);
      if (next !== undefined && candidate !== undefined && candidate.squares <= state.squares) {
        // The step's gain against the noise that is left tells when to stop.
        converged = state.squares - candidate.squares <= 1e-9 * candidate.squares;
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
  return finished(samples, poles, state, converged);
}

interface Projected {
  /** Real and imaginary part of each term's amplitude, then the offset. */
  readonly linear: Float64Array;
  readonly squares: number;
  readonly count: number;
}

/** Walks the samples with the basis Re, Im of each exp(s·n), and 1. */
function eachRow(
  samples: Float64Array,
  poles: readonly DampedPole[],
  visit: (n: number, value: number, basis: Float64Array) => void,
): void {
  const terms = poles.length;
  const basis = new Float64Array(2 * terms + 1);
  const turn = new Float64Array(2 * terms);
  for (const [k, { decay, angular }] of poles.entries()) {
    turn[2 * k] = Math.exp(-decay) * Math.cos(angular);
    turn[2 * k + 1] = Math.exp(-decay) * Math.sin(angular);
    basis[2 * k] = 1;
  }
  basis[2 * terms] = 1;
  for (let n = 0; n < samples.length; n++) {
    const value = samples[n]!;
    if (!Number.isNaN(value)) visit(n, value, basis);
    for (let k = 0; k < 2 * terms; k += 2) {
      const re = basis[k]!;
      const im = basis[k + 1]!;
      basis[k] = re * turn[k]! - im * turn[k + 1]!;
      basis[k + 1] = re * turn[k + 1]! + im * turn[k]!;
    }
  }
}

/** Amplitudes for given poles. Re(A·E) = Re A·Re E − Im A·Im E. */
function project(samples: Float64Array, poles: readonly DampedPole[]): Projected | undefined {
  const size = 2 * poles.length + 1;
  const normal = emptyNormal(size);
  const row = new Float64Array(size);
  let count = 0;
  eachRow(samples, poles, (_, value, basis) => {
    for (let a = 0; a < size; a++) row[a] = a % 2 === 1 && a < size - 1 ? -basis[a]! : basis[a]!;
    observe(normal, row, value);
    count++;
  });
  if (count < 2 * size) return undefined;
  const solved = solveNormal(normal);
  if (solved === undefined) return undefined;
  const linear = solved.solution;
  // The difference of two large sums would lose the small residual: it is summed anew.
  let squares = 0;
  eachRow(samples, poles, (_, value, basis) => {
    const rest = value - modelAt(basis, linear);
    squares += rest * rest;
  });
  return { linear, squares, count };
}

function modelAt(basis: Float64Array, linear: Float64Array): number {
  const last = linear.length - 1;
  let sum = linear[last]!;
  for (let k = 0; k < last; k += 2) sum += linear[k]! * basis[k]! - linear[k + 1]! * basis[k + 1]!;
  return sum;
}

/** Normal equations of all parameters about the present ones: linear ones first, then decay and angular of each term. */
function linearised(samples: Float64Array, poles: readonly DampedPole[], { linear }: Projected): Normal {
  const linearCount = linear.length;
  const size = linearCount + 2 * poles.length;
  const normal = emptyNormal(size);
  const row = new Float64Array(size);
  eachRow(samples, poles, (n, value, basis) => {
    for (let a = 0; a < linearCount; a++) row[a] = a % 2 === 1 && a < linearCount - 1 ? -basis[a]! : basis[a]!;
    for (let k = 0; k < linearCount - 1; k += 2) {
      const re = linear[k]! * basis[k]! - linear[k + 1]! * basis[k + 1]!;
      const im = linear[k]! * basis[k + 1]! + linear[k + 1]! * basis[k]!;
      row[linearCount + k] = -n * re;
      row[linearCount + k + 1] = -n * im;
    }
    observe(normal, row, value - modelAt(basis, linear));
  });
  return normal;
}

/** Poles after a step; undefined where it leads out of what a decaying tone can be. */
function moved(poles: readonly DampedPole[], step: Float64Array, from: number): readonly DampedPole[] | undefined {
  const next = poles.map(({ decay, angular }, k) => ({
    decay: decay + step[from + 2 * k]!,
    angular: angular + step[from + 2 * k + 1]!,
  }));
  return next.every(({ decay, angular }) => Math.abs(decay) < 1 && angular > 0 && angular < Math.PI) ? next : undefined;
}

function finished(
  samples: Float64Array,
  poles: readonly DampedPole[],
  state: Projected,
  converged: boolean,
): DampedFit | undefined {
  const { linear, squares, count } = state;
  const normal = linearised(samples, poles, state);
  const solved = solveNormal(normal);
  if (solved === undefined) return undefined;
  const from = linear.length;
  const size = from + 2 * poles.length;
  const nonlinear = 2 * poles.length;
  const covariance = new Float64Array(nonlinear * nonlinear);
  for (let a = 0; a < nonlinear; a++)
    for (let b = 0; b < nonlinear; b++) covariance[a * nonlinear + b] = solved.inverse[(from + a) * size + from + b]!;
  const residual = new Float64Array(samples.length);
  eachRow(samples, poles, (n, value, basis) => {
    residual[n] = value - modelAt(basis, linear);
  });
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
