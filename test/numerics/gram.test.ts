import { describe, expect, it } from "vitest";
import { addTransposedProduct } from "../../src/numerics/gram.ts";

describe("addTransposedProduct", () => {
  // independent: the sum written out; shared lengths around the four that are taken together
  it.each([1, 3, 4, 5, 8, 11])("adds factor·Aᵀ·B over %i shared rows", (shared) => {
    const [rows, columns, factor] = [3, 5, -2];
    const left = Float64Array.from({ length: shared * rows }, (_, i) => Math.sin(i + 1));
    const right = Float64Array.from({ length: shared * columns }, (_, i) => Math.cos(3 * i));
    const into = Float64Array.from({ length: rows * columns }, (_, i) => i);
    const expected = into.map((value, at) => {
      const [i, j] = [Math.floor(at / columns), at % columns];
      let sum = value;
      for (let s = 0; s < shared; s++) sum += factor * left[s * rows + i]! * right[s * columns + j]!;
      return sum;
    });
    addTransposedProduct({ into, left, right, shared, rows, columns, factor });
    into.forEach((value, at) => {
      expect(Math.abs(value - expected[at]!)).toBeLessThan(1e-13);
    });
  });
});
