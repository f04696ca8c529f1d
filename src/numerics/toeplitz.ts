/** Products with Toeplitz matrices in O(N log N): each is embedded in a circulant matrix of length 2^n ≥ 2N. */
import { type ComplexArray, fourierTransform, powerOfTwoFrom } from "./fft.ts";
import { OutOfDomain } from "./out-of-domain.ts";

/** T[i, j] = c[|i − j|], or for `odd` T[i, j] = sign(i − j)·c[|i − j|] with a zero diagonal. */
export type ToeplitzSymmetry = "even" | "odd";

export interface ToeplitzOperator {
  /** Rows and columns. */
  readonly size: number;
  /** T·B for B row-major [size × columns]; the answer has the same shape. */
  times(matrix: Float64Array, columns: number): Float64Array;
}

/** Up to this size the direct double loop is as fast as the transform, and exact to rounding. */
const directUpTo = 32;

/**
 * A Toeplitz matrix ready to multiply; its spectrum is taken once.
 *
 * @param firstColumn  c[0 … N − 1]; for `odd` symmetry c[0] is taken as 0
 * @validity  error about 1e-16·log2(N) of the largest entry of the answer
 */
export function toeplitzOperator(firstColumn: Float64Array, symmetry: ToeplitzSymmetry): ToeplitzOperator {
  const size = firstColumn.length;
  if (size === 0) throw new OutOfDomain("toeplitzOperator", "the first column is empty");
  const multiply = size <= directUpTo ? direct(firstColumn, symmetry) : byTransform(firstColumn, symmetry);
  return {
    size,
    times(matrix, columns) {
      if (matrix.length !== size * columns) {
        throw new OutOfDomain(
          "toeplitzOperator",
          `matrix must be [${size} × ${columns}], got ${matrix.length} numbers`,
        );
      }
      return multiply(matrix, columns);
    },
  };
}

/**
 * T·B for a Toeplitz matrix T given by its first column.
 *
 * @param firstColumn  [N]
 * @param matrix       B, row-major [N × columns]
 * @param symmetry     `even` (symmetric, the default) or `odd`
 * @returns            row-major [N × columns]
 */
export function toeplitzMultiply({
  firstColumn,
  matrix,
  columns,
  symmetry = "even",
}: {
  firstColumn: Float64Array;
  matrix: Float64Array;
  columns: number;
  symmetry?: ToeplitzSymmetry;
}): Float64Array {
  return toeplitzOperator(firstColumn, symmetry).times(matrix, columns);
}

function direct(firstColumn: Float64Array, symmetry: ToeplitzSymmetry) {
  const size = firstColumn.length;
  const mirror = symmetry === "odd" ? -1 : 1;
  return (matrix: Float64Array, columns: number): Float64Array => {
    const product = new Float64Array(size * columns);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        if (symmetry === "odd" && i === j) continue;
        const entry = i >= j ? firstColumn[i - j]! : mirror * firstColumn[j - i]!;
        for (let c = 0; c < columns; c++) product[i * columns + c]! += entry * matrix[j * columns + c]!;
      }
    }
    return product;
  };
}

function byTransform(firstColumn: Float64Array, symmetry: ToeplitzSymmetry) {
  const size = firstColumn.length;
  const transform = fourierTransform(powerOfTwoFrom(2 * size));
  const spectrum = circulantSpectrum(firstColumn, symmetry);
  const packed = transform.array();
  const turned = transform.array();
  return (matrix: Float64Array, columns: number): Float64Array => {
    const product = new Float64Array(size * columns);
    // T is real, so two real columns travel as the real and the imaginary part of one transform.
    for (let c = 0; c < columns; c += 2) {
      const pair = c + 1 < columns;
      packed.fill(0);
      for (let i = 0; i < size; i++) {
        packed[2 * i] = matrix[i * columns + c]!;
        if (pair) packed[2 * i + 1] = matrix[i * columns + c + 1]!;
      }
      transform.forward(packed, turned);
      scale(turned, spectrum, symmetry);
      transform.inverse(turned, packed);
      for (let i = 0; i < size; i++) {
        product[i * columns + c] = packed[2 * i]!;
        if (pair) product[i * columns + c + 1] = packed[2 * i + 1]!;
      }
    }
    return product;
  };
}

/** The circulant's eigenvalues: real for even symmetry; for odd symmetry purely imaginary, and the imaginary parts are returned. */
function circulantSpectrum(firstColumn: Float64Array, symmetry: ToeplitzSymmetry): Float64Array {
  const size = firstColumn.length;
  const transform = fourierTransform(powerOfTwoFrom(2 * size));
  const circulant = transform.array();
  const turned = transform.array();
  const mirror = symmetry === "odd" ? -1 : 1;
  if (symmetry === "even") circulant[0] = firstColumn[0]!;
  for (let i = 1; i < size; i++) {
    circulant[2 * i] = firstColumn[i]!;
    circulant[2 * (transform.size - i)] = mirror * firstColumn[i]!;
  }
  transform.forward(circulant, turned);
  const part = symmetry === "odd" ? 1 : 0;
  return Float64Array.from({ length: transform.size }, (_, k) => turned[2 * k + part]!);
}

function scale(values: ComplexArray, spectrum: Float64Array, symmetry: ToeplitzSymmetry): void {
  for (let k = 0; k < spectrum.length; k++) {
    const re = values[2 * k]!;
    const im = values[2 * k + 1]!;
    const factor = spectrum[k]!;
    values[2 * k] = symmetry === "odd" ? -factor * im : factor * re;
    values[2 * k + 1] = symmetry === "odd" ? factor * re : factor * im;
  }
}
