/** The linear algebra that every solve stands on, against a general-purpose library. */
import { LuDecomposition, Matrix } from "ml-matrix";
import { factorise, solveFactored } from "../src/numerics/lu.ts";
import type { Race } from "./race.ts";

const size = 300;
/** A well-conditioned full matrix, the same in every run. */
const entries = Float64Array.from({ length: size * size }, (_, i) => {
  const row = Math.floor(i / size);
  const column = i % size;
  return 1 / (1 + Math.abs(row - column)) + (row === column ? 2 : 0);
});
const side = Float64Array.from({ length: size }, (_, i) => Math.cos(i));
const matrix = Matrix.from1DArray(size, size, entries);
const column = Matrix.columnVector(side);

export default [
  {
    name: `solving ${size} equations`,
    candidate: () => solveFactored(factorise(entries.slice(), size), side, 1),
    reference: () => new LuDecomposition(matrix).solve(column),
    against: "a general-purpose matrix library",
    atMost: 1,
  },
] satisfies readonly Race[];
