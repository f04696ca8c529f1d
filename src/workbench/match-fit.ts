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
  /** −2·ln of the records' probability under the whole prior, to second order about the fit, but for a constant of the records. */
  readonly surprise: number;
}

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
    surprise: fit.squares - logDeterminant(covariance, size),
  };
}

function logDeterminant(covariance: Float64Array, size: number): number {
  return symmetricEigen(covariance, size).values.reduce((sum, value) => sum + Math.log(Math.max(value, 1e-300)), 0);
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
