/** Linear algebra, quadrature, interpolation and roots against a general-purpose library and exact answers. */
import fc from "fast-check";
import { EigenvalueDecomposition, LuDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { cholesky, symmetricEigen } from "../../src/numerics/eigen.ts";
import { gaussLegendre } from "../../src/numerics/gauss.ts";
import {
  barycentricWeights,
  cosineNodes,
  cosineRow,
  lagrangeRow,
  trigonometricRow,
} from "../../src/numerics/interpolation.ts";
import { factorise, solveFactored } from "../../src/numerics/lu.ts";
import { bracketedRoot } from "../../src/numerics/root.ts";
import { toroidalHarmonics } from "../../src/numerics/toroidal.ts";
import { relativeError } from "./within.ts";

const square = (size: number) =>
  fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: size * size, maxLength: size * size });

describe("factorise and solveFactored", () => {
  // independent: ml-matrix
  it("solve what a general-purpose library solves", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 12 }).chain((size) => fc.tuple(fc.constant(size), square(size))),
        ([size, values]) => {
          const entries = Float64Array.from(values, (value, i) => value + (i % (size + 1) === 0 ? size : 0));
          const sides = Float64Array.from({ length: 2 * size }, (_, i) => Math.sin(i + 1));
          const ours = solveFactored(factorise(entries.slice(), size), sides, 2);
          const theirs = new LuDecomposition(Matrix.from1DArray(size, size, entries))
            .solve(Matrix.from1DArray(size, 2, sides))
            .to1DArray();
          ours.forEach((value, i) => {
            expect(Math.abs(value - theirs[i]!)).toBeLessThan(1e-12);
          });
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });
  // independent: the matrix itself; no diagonal stands out, so rows are swapped within and between the blocks of four pivots
  it.each([3, 4, 5, 8, 9, 23, 64])("solve %i equations whose pivots lie anywhere", (size) => {
    const entries = Float64Array.from({ length: size * size }, (_, k) => {
      const [row, column] = [Math.floor(k / size), k % size];
      return Math.cos(0.37 * k * k) + (column === size - 1 - row ? size / 2 : 0);
    });
    const sides = Float64Array.from({ length: 3 * size }, (_, i) => Math.cos(i));
    const found = solveFactored(factorise(entries.slice(), size), sides, 3);
    for (let i = 0; i < size; i++) {
      for (let c = 0; c < 3; c++) {
        let sum = 0;
        for (let k = 0; k < size; k++) sum += entries[i * size + k]! * found[k * 3 + c]!;
        expect(Math.abs(sum - sides[i * 3 + c]!)).toBeLessThan(1e-12);
      }
    }
  });
  it("refuse a singular matrix", () => {
    expect(() => factorise(Float64Array.from([1, 2, 2, 4]), 2)).toThrow(/singular at row 1/);
  });
});

describe("symmetricEigen", () => {
  // independent: ml-matrix
  it("finds the eigenvalues of a general-purpose library, and unit vectors that belong to them", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 14 }).chain((size) => fc.tuple(fc.constant(size), square(size))),
        ([size, values]) => {
          const matrix = Float64Array.from(
            values,
            (_, k) => values[k]! + values[(k % size) * size + Math.floor(k / size)]!,
          );
          const { values: ours, vectors } = symmetricEigen(matrix, size);
          const theirs = [
            ...new EigenvalueDecomposition(Matrix.from1DArray(size, size, matrix), { assumeSymmetric: true })
              .realEigenvalues,
          ].sort((a, b) => b - a);
          for (let k = 0; k < size; k++) {
            expect(Math.abs(ours[k]! - theirs[k]!)).toBeLessThan(1e-11);
            for (let i = 0; i < size; i++) {
              const image = Array.from(
                { length: size },
                (_, j) => matrix[i * size + j]! * vectors[k * size + j]!,
              ).reduce((sum, term) => sum + term, 0);
              expect(Math.abs(image - ours[k]! * vectors[k * size + i]!)).toBeLessThan(1e-11);
            }
          }
        },
      ),
      { seed: 12, numRuns: 200 },
    );
  });
  it("cholesky gives back its matrix and refuses one that is not positive", () => {
    const lower = cholesky(Float64Array.from([4, 2, 2, 10]), 2);
    expect([...lower]).toEqual([2, 0, 1, 3]);
    expect(() => cholesky(Float64Array.from([1, 2, 2, 1]), 2)).toThrow(/not positive definite/);
  });
});

describe("gaussLegendre", () => {
  // law: exact for polynomials of degree 2n − 1, ∫x^k = 1/(k + 1)
  it.each([1, 2, 5, 16, 64])("with %i points is exact to its degree", (count) => {
    const { nodes, weights } = gaussLegendre(count);
    for (let power = 0; power < 2 * count; power++) {
      const sum = nodes.reduce((total, x, i) => total + weights[i]! * x ** power, 0);
      expect(relativeError(sum, 1 / (power + 1))).toBeLessThan(1e-13);
    }
  });
});

describe("interpolation", () => {
  const wave = (x: number) => 1 + Math.cos(2 * Math.PI * 3 * x) + 0.5 * Math.sin(2 * Math.PI * 2 * x);
  it("trigonometricRow reproduces a Fourier sum within its span", () => {
    const row = new Float64Array(9);
    for (const x of [0.03, 0.41, 0.777]) {
      trigonometricRow(9, x, row);
      expect(row.reduce((sum, weight, j) => sum + weight * wave(j / 9), 0)).toBeCloseTo(wave(x), 12);
    }
  });
  it("cosineRow reproduces a cosine sum within its span, ends included", () => {
    const sum = (x: number) => 2 - Math.cos(Math.PI * x) + 0.3 * Math.cos(5 * Math.PI * x);
    const row = new Float64Array(7);
    for (const x of [0, 0.2, 0.5 / 7, 0.93, 1]) {
      cosineRow(cosineNodes(7), x, row);
      expect(row.reduce((total, weight, j) => total + weight * sum((j + 0.5) / 7), 0)).toBeCloseTo(sum(x), 12);
    }
  });
  it("lagrangeRow reproduces a polynomial, at a node exactly", () => {
    const nodes = gaussLegendre(6).nodes;
    const row = new Float64Array(6);
    const weights = barycentricWeights(nodes);
    lagrangeRow(nodes, weights, 0.37, row);
    expect(row.reduce((total, weight, j) => total + weight * nodes[j]! ** 5, 0)).toBeCloseTo(0.37 ** 5, 13);
    lagrangeRow(nodes, weights, nodes[2]!, row);
    expect([...row]).toEqual([0, 0, 1, 0, 0, 0]);
  });
});

describe("toroidalHarmonics", () => {
  // independent: the integral itself by the midpoint rule with enough points
  it.each([
    { radiusA: 0.15, radiusB: 0.15, separation: 0.02 },
    { radiusA: 0.15, radiusB: 0.1, separation: 0.3 },
    { radiusA: 0.15, radiusB: 0.149, separation: 0 },
    { radiusA: 0.006, radiusB: 0.006, separation: 1.5 },
  ])("are the Fourier coefficients of the inverse distance: %o", (rings) => {
    const found = new Float64Array(4);
    toroidalHarmonics(rings, found);
    const points = 40_000;
    for (let m = 0; m < 4; m++) {
      let sum = 0;
      for (let i = 0; i < points; i++) {
        const angle = (2 * Math.PI * (i + 0.5)) / points;
        const { radiusA: a, radiusB: b, separation } = rings;
        sum += Math.cos(m * angle) / Math.sqrt(a * a + b * b - 2 * a * b * Math.cos(angle) + separation ** 2) / points;
      }
      expect(Math.abs(found[m]! - sum)).toBeLessThan(1e-9 * found[0]!);
    }
  });
});

describe("bracketedRoot", () => {
  it("finds a root and refuses ends of one sign", () => {
    expect(bracketedRoot((x) => x ** 3 - 2, { low: 0, high: 5, tolerance: 1e-12 })).toBeCloseTo(Math.cbrt(2), 11);
    expect(() => bracketedRoot((x) => x * x + 1, { low: -1, high: 1, tolerance: 1e-9 })).toThrow(/change of sign/);
  });
});
