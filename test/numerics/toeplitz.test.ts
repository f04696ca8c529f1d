import { describe, expect, it } from "vitest";
import { toeplitzMultiply, toeplitzOperator } from "../../src/numerics/toeplitz.ts";

const sample = (count: number, phase: number) =>
  Float64Array.from({ length: count }, (_, i) => Math.sin(phase + 3.7 * i + 0.013 * i * i));

/** T·B entry by entry. */
function byDefinition(column: Float64Array, matrix: Float64Array, columns: number, odd: boolean): Float64Array {
  const size = column.length;
  const product = new Float64Array(size * columns);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const entry = odd ? Math.sign(i - j) * column[Math.abs(i - j)]! : column[Math.abs(i - j)]!;
      for (let c = 0; c < columns; c++) product[i * columns + c]! += entry * matrix[j * columns + c]!;
    }
  }
  return product;
}

describe("toeplitzMultiply", () => {
  // independent: the product entry by entry; 1e-12 is rounding over some hundred terms of size 1. Sizes on both sides of the change to
  // the transform, odd and even counts of columns (two travel in one transform)
  const cases = [1, 2, 31, 32, 33, 100, 257].flatMap((size) =>
    [1, 2, 5].flatMap((columns) => (["even", "odd"] as const).map((symmetry) => ({ size, columns, symmetry }))),
  );
  it.each(cases)(
    "equals the product entry by entry: $size rows, $columns columns, $symmetry",
    ({ size, columns, symmetry }) => {
      const firstColumn = sample(size, 0.3);
      const matrix = sample(size * columns, 1.1);
      const found = toeplitzMultiply({ firstColumn, matrix, columns, symmetry });
      const expected = byDefinition(firstColumn, matrix, columns, symmetry === "odd");
      expect(Math.max(...found.map((x, i) => Math.abs(x - expected[i]!)))).toBeLessThan(1e-12);
    },
  );

  // law: an operator may be used again and again
  it("gives the same answer twice", () => {
    const operator = toeplitzOperator(sample(70, 0.2), "even");
    const matrix = sample(140, 0.9);
    expect(operator.times(matrix, 2)).toEqual(operator.times(matrix, 2));
  });

  it("refuses a matrix of another shape", () => {
    expect(() => toeplitzMultiply({ firstColumn: sample(5, 0), matrix: sample(9, 0), columns: 2 })).toThrow(
      /\[5 × 2\]/,
    );
    expect(() => toeplitzOperator(new Float64Array(0), "even")).toThrow(/empty/);
  });
});
