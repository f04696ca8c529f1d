/** The exponential of a small dense matrix. */
import { factorise, solveFactored } from "./lu.ts";
import { OutOfDomain } from "./out-of-domain.ts";

/** Coefficients of the [13/13] Padé approximant of exp, and the 1-norm up to which it is good to 2⁻⁵³. */
const pade = [
  64764752532480000, 32382376266240000, 7771770303897600, 1187353796428800, 129060195264000, 10559470521600,
  670442572800, 33522128640, 1323241920, 40840800, 960960, 16380, 182, 1,
] as const;
const padeReach = 5.371920351148152;

/**
 * exp(A) by scaling and squaring with the [13/13] Padé approximant.
 *
 * @param matrix  [size × size], row-major; left as it is
 * @returns       [size × size], row-major
 * @throws OutOfDomain  an entry is not finite, or the 1-norm is so large that more than 60 squarings would be needed
 * @validity  backward error of the order of one rounding; for matrices far from normal the squarings lose digits, which
 *            scaling the rows and columns to one unit (energy) avoids.
 * @source    N. J. Higham, SIAM J. Matrix Anal. Appl. 26 (2005) 1179, algorithm 2.3
 */
export function matrixExponential(matrix: Float64Array, size: number): Float64Array {
  const norm = oneNorm(matrix, size);
  if (!Number.isFinite(norm)) throw new OutOfDomain("matrixExponential", "every entry must be finite");
  const squarings = norm > padeReach ? Math.ceil(Math.log2(norm / padeReach)) : 0;
  if (squarings > 60) throw new OutOfDomain("matrixExponential", `the 1-norm must be below 6e18, got ${norm}`);

  const a = matrix.map((entry) => entry / 2 ** squarings);
  const a2 = product(a, a, size);
  const a4 = product(a2, a2, size);
  const a6 = product(a2, a4, size);
  const [b0, b1, b2, b3, b4, b5, b6, b7, b8, b9, b10, b11, b12, b13] = pade;
  const odd = product(a6, combination([b13, a6], [b11, a4], [b9, a2]), size);
  const even = product(a6, combination([b12, a6], [b10, a4], [b8, a2]), size);
  accumulate(odd, [b7, a6], [b5, a4], [b3, a2]);
  accumulate(even, [b6, a6], [b4, a4], [b2, a2]);
  for (let i = 0; i < size; i++) {
    odd[i * size + i]! += b1;
    even[i * size + i]! += b0;
  }
  const u = product(a, odd, size);
  const numerator = combination([1, even], [1, u]);
  const denominator = combination([1, even], [-1, u]);
  let result = solveFactored(factorise(denominator, size), numerator, size);
  for (let k = 0; k < squarings; k++) result = product(result, result, size);
  return result;
}

type Term = readonly [factor: number, matrix: Float64Array];

function combination(...terms: readonly Term[]): Float64Array {
  const sum = new Float64Array(terms[0]![1].length);
  accumulate(sum, ...terms);
  return sum;
}

function accumulate(sum: Float64Array, ...terms: readonly Term[]): void {
  for (const [factor, matrix] of terms) for (let i = 0; i < sum.length; i++) sum[i]! += factor * matrix[i]!;
}

function product(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const c = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < size; k++) {
      const factor = a[i * size + k]!;
      if (factor === 0) continue;
      for (let j = 0; j < size; j++) c[i * size + j]! += factor * b[k * size + j]!;
    }
  }
  return c;
}

function oneNorm(matrix: Float64Array, size: number): number {
  let greatest = 0;
  for (let j = 0; j < size; j++) {
    let sum = 0;
    for (let i = 0; i < size; i++) sum += Math.abs(matrix[i * size + j]!);
    if (!(sum <= greatest)) greatest = sum;
  }
  return greatest;
}
