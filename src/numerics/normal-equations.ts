/** Linear least squares for few unknowns: normal equations with scaled columns, solved by Cholesky's method. */

export interface Normal {
  /** Σ column_a·column_b, [size × size]; filled on and below the diagonal. */
  readonly matrix: Float64Array;
  /** Σ column_a·value, [size]. */
  readonly side: Float64Array;
  /** Σ value². */
  squares: number;
}

export function emptyNormal(size: number): Normal {
  return { matrix: new Float64Array(size * size), side: new Float64Array(size), squares: 0 };
}

/** Adds one observation. */
export function observe(normal: Normal, row: Float64Array, value: number): void {
  const { matrix, side } = normal;
  const size = side.length;
  for (let a = 0; a < size; a++) {
    const left = row[a]!;
    side[a]! += left * value;
    const at = a * size;
    for (let b = 0; b <= a; b++) matrix[at + b]! += left * row[b]!;
  }
  normal.squares += value * value;
}

export interface NormalSolution {
  /** [size] */
  readonly solution: Float64Array;
  /** Inverse of the matrix, [size × size]: times the noise's variance, the covariance. */
  readonly inverse: Float64Array;
}

/** Relative size of a pivot below which a column counts as a mixture of the ones before it. */
const leastPivot = 1e-13;

/**
 * Solves the normal equations.
 * @param damping  added to the scaled diagonal, for the columns from `dampedFrom` on (Levenberg's step)
 * @returns  undefined where columns depend on each other
 */
export function solveNormal(
  { matrix, side }: Normal,
  { damping = 0, dampedFrom = 0 }: { damping?: number; dampedFrom?: number } = {},
): NormalSolution | undefined {
  const size = side.length;
  const scale = new Float64Array(size);
  for (let a = 0; a < size; a++) {
    const diagonal = matrix[a * size + a]!;
    if (!(diagonal > 0)) return undefined;
    scale[a] = 1 / Math.sqrt(diagonal);
  }
  const lower = new Float64Array(size * size);
  for (let a = 0; a < size; a++) {
    for (let b = 0; b <= a; b++) {
      let sum = matrix[a * size + b]! * scale[a]! * scale[b]!;
      if (a === b && a >= dampedFrom) sum += damping;
      for (let k = 0; k < b; k++) sum -= lower[a * size + k]! * lower[b * size + k]!;
      if (a === b) {
        if (!(sum > leastPivot)) return undefined;
        lower[a * size + a] = Math.sqrt(sum);
      } else lower[a * size + b] = sum / lower[b * size + b]!;
    }
  }
  const inverse = inverseFrom(lower, size);
  for (let a = 0; a < size; a++) for (let b = 0; b < size; b++) inverse[a * size + b]! *= scale[a]! * scale[b]!;
  const solution = new Float64Array(size);
  for (let a = 0; a < size; a++) for (let b = 0; b < size; b++) solution[a]! += inverse[a * size + b]! * side[b]!;
  return { solution, inverse };
}

/** (L·Lᵀ)⁻¹ from L. */
function inverseFrom(lower: Float64Array, size: number): Float64Array {
  const half = new Float64Array(size * size);
  for (let c = 0; c < size; c++) {
    for (let a = c; a < size; a++) {
      let sum = a === c ? 1 : 0;
      for (let k = c; k < a; k++) sum -= lower[a * size + k]! * half[k * size + c]!;
      half[a * size + c] = sum / lower[a * size + a]!;
    }
  }
  const inverse = new Float64Array(size * size);
  for (let a = 0; a < size; a++)
    for (let b = 0; b < size; b++) {
      let sum = 0;
      for (let k = Math.max(a, b); k < size; k++) sum += half[k * size + a]! * half[k * size + b]!;
      inverse[a * size + b] = sum;
    }
  return inverse;
}
