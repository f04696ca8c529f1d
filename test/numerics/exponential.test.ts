import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { matrixExponential } from "../../src/numerics/exponential.ts";

describe("matrixExponential", () => {
  test("of a rotation's generator is the rotation, over many turns", () => {
    // exact: exp([[0, −w], [w, 0]]) = [[cos w, −sin w], [sin w, cos w]]
    for (const w of [1e-9, 0.3, 5, 100, 1234.5]) {
      const [a, b, c, d] = matrixExponential(Float64Array.of(0, -w, w, 0), 2);
      expect(a).toBeCloseTo(Math.cos(w), 11);
      expect(b).toBeCloseTo(-Math.sin(w), 11);
      expect(c).toBeCloseTo(Math.sin(w), 11);
      expect(d).toBeCloseTo(Math.cos(w), 11);
    }
  });

  test("of a nilpotent matrix is the finite series", () => {
    // exact: N³ = 0, so exp N = 1 + N + N²/2
    const e = matrixExponential(Float64Array.of(0, 2, 3, 0, 0, 4, 0, 0, 0), 3);
    expect(Array.from(e)).toEqual([1, 2, 7, 0, 1, 4, 0, 0, 1].map((x) => expect.closeTo(x, 13)));
  });

  test("agrees with the eigenvectors of a symmetric matrix", () => {
    // independent: exp A = V·exp(Λ)·Vᵀ by another package's eigenvalues
    const rows = [
      [-3, 1, 0.5],
      [1, -2, 0.25],
      [0.5, 0.25, 4],
    ];
    const { realEigenvalues, eigenvectorMatrix: v } = new EigenvalueDecomposition(new Matrix(rows));
    const expected = v.mmul(Matrix.diag(realEigenvalues.map(Math.exp))).mmul(v.transpose());
    matrixExponential(Float64Array.from(rows.flat()), 3).forEach((entry, k) => {
      expect(entry).toBeCloseTo(expected.get(Math.floor(k / 3), k % 3), 11);
    });
  });

  test("refuses what is not finite", () => {
    expect(() => matrixExponential(Float64Array.of(Number.NaN), 1)).toThrow("finite");
    expect(() => matrixExponential(Float64Array.of(1e30), 1)).toThrow("1-norm");
  });
});
