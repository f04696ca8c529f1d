/** Sums of products over a long shared dimension, the shape that every reduction onto fewer unknowns has. */

/**
 * Adds factor·Aᵀ·B to a matrix: into[i, j] += factor·Σ_s A[s, i]·B[s, j]. Four shared rows are taken together, so that every number loaded
 * serves more than once.
 *
 * @param into    [rows × columns], row-major
 * @param left    A, [shared × rows], row-major
 * @param right   B, [shared × columns], row-major
 */
export function addTransposedProduct({
  into,
  left,
  right,
  shared,
  rows,
  columns,
  factor = 1,
}: {
  into: Float64Array;
  left: Float64Array;
  right: Float64Array;
  shared: number;
  rows: number;
  columns: number;
  factor?: number;
}): void {
  let s = 0;
  for (; s + 3 < shared; s += 4) {
    const a = s * columns;
    const b = a + columns;
    const c = b + columns;
    const d = c + columns;
    for (let i = 0; i < rows; i++) {
      const at = s * rows + i;
      const leftA = factor * left[at]!;
      const leftB = factor * left[at + rows]!;
      const leftC = factor * left[at + 2 * rows]!;
      const leftD = factor * left[at + 3 * rows]!;
      const row = i * columns;
      for (let j = 0; j < columns; j++) {
        into[row + j]! += leftA * right[a + j]! + leftB * right[b + j]! + leftC * right[c + j]! + leftD * right[d + j]!;
      }
    }
  }
  for (; s < shared; s++) {
    for (let i = 0; i < rows; i++) {
      const one = factor * left[s * rows + i]!;
      for (let j = 0; j < columns; j++) into[i * columns + j]! += one * right[s * columns + j]!;
    }
  }
}
