/** Dense linear systems: LU with partial pivoting, row-major. */

export interface Factors {
  readonly size: number;
  /** L below the diagonal (unit diagonal), U on and above; [size × size], rows permuted. */
  readonly lu: Float64Array;
  /** Row of the original matrix that stands in each row of `lu`. */
  readonly order: Int32Array;
}

/**
 * Factors a square matrix in place.
 * @param matrix  [size × size], row-major; overwritten
 * @throws RangeError where a pivot vanishes (the matrix is singular)
 */
export function factorise(matrix: Float64Array, size: number): Factors {
  const order = Int32Array.from({ length: size }, (_, i) => i);
  for (let k = 0; k < size; k++) {
    let pivot = k;
    let greatest = Math.abs(matrix[k * size + k]!);
    for (let i = k + 1; i < size; i++) {
      const candidate = Math.abs(matrix[i * size + k]!);
      if (candidate > greatest) {
        greatest = candidate;
        pivot = i;
      }
    }
    if (!(greatest > 0)) throw new RangeError(`factorise: the matrix of ${size} rows is singular at row ${k}`);
    if (pivot !== k) swapRows(matrix, order, size, k, pivot);
    const inverse = 1 / matrix[k * size + k]!;
    const rowK = k * size;
    for (let i = k + 1; i < size; i++) {
      const rowI = i * size;
      const factor = matrix[rowI + k]! * inverse;
      if (factor === 0) continue;
      matrix[rowI + k] = factor;
      for (let j = k + 1; j < size; j++) matrix[rowI + j]! -= factor * matrix[rowK + j]!;
    }
  }
  return { size, lu: matrix, order };
}

function swapRows(matrix: Float64Array, order: Int32Array, size: number, a: number, b: number): void {
  for (let j = 0; j < size; j++) {
    const held = matrix[a * size + j]!;
    matrix[a * size + j] = matrix[b * size + j]!;
    matrix[b * size + j] = held;
  }
  const held = order[a]!;
  order[a] = order[b]!;
  order[b] = held;
}

/**
 * Solves for several right-hand sides at once.
 * @param sides  [size × count], row-major: row i holds entry i of every right-hand side
 * @returns      [size × count], a new array
 */
export function solveFactored({ size, lu, order }: Factors, sides: Float64Array, count: number): Float64Array {
  const x = new Float64Array(size * count);
  for (let i = 0; i < size; i++) {
    const from = order[i]! * count;
    const to = i * count;
    for (let c = 0; c < count; c++) x[to + c] = sides[from + c]!;
    for (let k = 0; k < i; k++) {
      const factor = lu[i * size + k]!;
      if (factor === 0) continue;
      const row = k * count;
      for (let c = 0; c < count; c++) x[to + c]! -= factor * x[row + c]!;
    }
  }
  for (let i = size - 1; i >= 0; i--) {
    const to = i * count;
    for (let k = i + 1; k < size; k++) {
      const factor = lu[i * size + k]!;
      if (factor === 0) continue;
      const row = k * count;
      for (let c = 0; c < count; c++) x[to + c]! -= factor * x[row + c]!;
    }
    const inverse = 1 / lu[i * size + i]!;
    for (let c = 0; c < count; c++) x[to + c]! *= inverse;
  }
  return x;
}
