/** What a speed is held against where nothing else does the same: 200 equations by a general-purpose library. */
import { LuDecomposition, Matrix } from "ml-matrix";

const size = 200;
const equations = Matrix.from1DArray(
  size,
  size,
  Array.from({ length: size * size }, (_, i) => Math.cos(0.37 * i * i) + (i % (size + 1) === 0 ? size : 0)),
);
const side = Matrix.columnVector(Array.from({ length: size }, (_, i) => Math.sin(i)));
/** A fixed piece of work that tells how fast the machine is. */
export const yardstick = {
  reference: () => new LuDecomposition(equations).solve(side),
  against: `${size} equations by a general-purpose library`,
};
