/** One fit: parameters within their priors, the records' residuals, and how well both agree. */
import { symmetricEigen } from "../numerics/eigen.ts";
import { levenbergMarquardt } from "../numerics/levenberg-marquardt.ts";
import { emptyNormal, observe, solveNormal } from "../numerics/normal-equations.ts";
import { jacobianAt, type Problem, residualsAt } from "./match-predict.ts";

export interface FittedProblem {
  readonly problem: Problem;
  /** In standard deviations of each prior. */
  readonly u: Float64Array;
  /** χ² of records and priors together. */
  readonly chiSquare: number;
  /** Of u, [parameters × parameters]. */
  readonly covariance: Float64Array;
  /** χ² and 2·ln of how much rarer the lines are that the tones were taken for. */
  readonly surprise: number;
}

/**
 * 2·ln of how much rarer a tone that rings alone behind a driven bridge is a pole of both than the secondary's own: the primary gives its energy
 * back and stops, unless the bridge holds it shorted. Common practice, no source.
 */
const poleAlone = 6;

const polesAlone = ({ base, observed, lines }: Problem): number =>
  base.network
    ? lines.filter(
        (of, n) => of.length === 1 && of[0] !== "f1" && of[0] !== "none" && observed[n]!.onTime !== undefined,
      ).length
    : 0;

/**
 * @param start  of u; at what is drawn where absent
 * @throws OutOfDomain  not even the start can be computed
 * @source levenberg-marquardt, laplace-evidence
 */
export function fitProblem(problem: Problem, start?: Float64Array): FittedProblem {
  const size = problem.parameters.length;
  const fit = levenbergMarquardt({
    start: start ?? new Float64Array(size),
    residualsOf: (u) => residualsAt(problem, u),
    jacobianOf: (u) => jacobianAt(problem, u),
    settled: 1e-4,
    mostIterations: 12,
  });
  const normal = emptyNormal(size);
  const rows = fit.jacobian.length / Math.max(1, size);
  for (let row = 0; row < rows; row++) observe(normal, fit.jacobian.subarray(row * size, (row + 1) * size), 0);
  const covariance = solveNormal(normal)?.inverse ?? identity(size);
  return {
    problem,
    u: fit.solution,
    chiSquare: fit.squares,
    covariance,
    surprise: fit.squares + poleAlone * polesAlone(problem),
  };
}

/**
 * What the last so many parameters cost by their freedom: −ln of the part of their prior volume that the records leave, to second order about
 * the fit. By the determinant of a block, this is what the whole posterior loses against the same without them.
 *
 * @source laplace-evidence
 */
export function priceOf(
  { covariance, u: { length: size } }: Pick<FittedProblem, "covariance" | "u">,
  last: number,
): number {
  const first = size - last;
  const block = Float64Array.from(
    { length: last * last },
    (_, n) => covariance[(first + Math.floor(n / last)) * size + first + (n % last)]!,
  );
  return symmetricEigen(block, last).values.reduce((sum, value) => sum - Math.log(Math.max(value, 1e-300)), 0);
}

function identity(size: number): Float64Array {
  const matrix = new Float64Array(size * size);
  for (let n = 0; n < size; n++) matrix[n * size + n] = 1;
  return matrix;
}

/** Standard deviation of something with these slopes in u. */
export function spreadOf(covariance: Float64Array, slopes: ArrayLike<number>): number {
  const size = slopes.length;
  let variance = 0;
  for (let a = 0; a < size; a++) {
    for (let b = 0; b < size; b++) variance += slopes[a]! * covariance[a * size + b]! * slopes[b]!;
  }
  return Math.sqrt(Math.max(0, variance));
}
