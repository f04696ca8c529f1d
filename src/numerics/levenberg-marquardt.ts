/** Least squares of a nonlinear model, with Levenberg's damping on Marquardt's scale. */
import { emptyNormal, observe, solveNormal } from "./normal-equations.ts";

export interface Fit {
  readonly solution: Float64Array;
  /** Σ residual². */
  readonly squares: number;
  /** d residual / d parameter at the solution, [residuals × parameters], row-major. */
  readonly jacobian: Float64Array;
  readonly iterations: number;
  /** Whether it came to rest; otherwise it ran out of iterations. */
  readonly settled: boolean;
}

/** Damping to begin with, and by how much it grows and shrinks. */
const damped = { first: 1e-3, grow: 8, shrink: 0.2, most: 1e9 };

/**
 * Parameters at which Σ residual² is least, near a start.
 *
 * @param start        [parameters]
 * @param residualsOf  [residuals], each over its own standard deviation; always of one length. One that is not finite is never accepted
 * @param jacobianOf   [residuals × parameters], row-major
 * @param settled      the step counts as rest where it gains less than this part of the squares, or less than it in all
 * @validity  a local minimum; as many residuals as parameters or more, or the damping decides
 * @source    levenberg-marquardt
 */
export function levenbergMarquardt({
  start,
  residualsOf,
  jacobianOf,
  settled = 1e-6,
  mostIterations = 40,
}: {
  start: Float64Array;
  residualsOf: (parameters: Float64Array) => Float64Array;
  jacobianOf: (parameters: Float64Array, residuals: Float64Array) => Float64Array;
  settled?: number;
  mostIterations?: number;
}): Fit {
  let solution: Float64Array = Float64Array.from(start);
  let residuals = residualsOf(solution);
  let squares = sumOfSquares(residuals);
  let jacobian = jacobianOf(solution, residuals);
  let damping = damped.first;
  for (let iterations = 0; iterations < mostIterations; iterations++) {
    let accepted = false;
    while (!accepted && damping < damped.most) {
      const tried = stepped({ solution, residuals, jacobian, damping });
      const next = tried && residualsOf(tried);
      const nextSquares = next ? sumOfSquares(next) : Number.NaN;
      if (tried && next && nextSquares <= squares) {
        const gain = squares - nextSquares;
        [solution, residuals, squares] = [tried, next, nextSquares];
        damping *= damped.shrink;
        accepted = true;
        jacobian = jacobianOf(solution, residuals);
        if (gain <= settled * Math.max(1, squares)) return { solution, squares, jacobian, iterations, settled: true };
      } else damping *= damped.grow;
    }
    if (!accepted) return { solution, squares, jacobian, iterations, settled: true };
  }
  return { solution, squares, jacobian, iterations: mostIterations, settled: false };
}

function stepped({
  solution,
  residuals,
  jacobian,
  damping,
}: {
  solution: Float64Array;
  residuals: Float64Array;
  jacobian: Float64Array;
  damping: number;
}): Float64Array | undefined {
  const size = solution.length;
  const normal = emptyNormal(size);
  residuals.forEach((residual, row) => {
    observe(normal, jacobian.subarray(row * size, (row + 1) * size), -residual);
  });
  const step = solveNormal(normal, { damping })?.solution;
  return step && solution.map((value, n) => value + step[n]!);
}

const sumOfSquares = (values: Float64Array): number => values.reduce((sum, value) => sum + value * value, 0);
