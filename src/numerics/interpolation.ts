/** Polynomial and trigonometric interpolation through fixed nodes, as rows of weights. */

/**
 * Barycentric weights of distinct nodes, scaled to stay in range.
 * @source Berrut & Trefethen, Barycentric Lagrange interpolation, SIAM Review 46 (2004), eq. (3.2)
 */
export function barycentricWeights(nodes: Float64Array): Float64Array {
  const count = nodes.length;
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let product = 1;
    for (let j = 0; j < count; j++) if (j !== i) product *= 4 * (nodes[i]! - nodes[j]!);
    weights[i] = 1 / product;
  }
  return weights;
}

/** Writes the Lagrange basis at `x` into `row` (second barycentric form); exact where x is a node. */
export function lagrangeRow(nodes: Float64Array, weights: Float64Array, x: number, row: Float64Array, at = 0): void {
  const count = nodes.length;
  let sum = 0;
  for (let j = 0; j < count; j++) {
    const gap = x - nodes[j]!;
    if (gap === 0) {
      row.fill(0, at, at + count);
      row[at + j] = 1;
      return;
    }
    const term = weights[j]! / gap;
    row[at + j] = term;
    sum += term;
  }
  for (let j = 0; j < count; j++) row[at + j]! /= sum;
}

/**
 * Writes the cardinal trigonometric basis of period 1 through the nodes j/count at `x` into `row`.
 * @source Henrici, Applied and Computational Complex Analysis III, §13.6 (closed Dirichlet sums)
 */
export function trigonometricRow(count: number, x: number, row: Float64Array, at = 0): void {
  const even = count % 2 === 0;
  for (let j = 0; j < count; j++) {
    const angle = Math.PI * (x - j / count);
    const sine = Math.sin(angle);
    if (Math.abs(sine) < 1e-13) {
      row.fill(0, at, at + count);
      row[at + j] = 1;
      return;
    }
    row[at + j] = even ? Math.sin(count * angle) / (count * Math.tan(angle)) : Math.sin(count * angle) / (count * sine);
  }
}

/** Nodes and weights for `cosineRow`: the midpoints (j + ½)/count of [0, 1] seen as Chebyshev points cos(π·t). */
export interface CosineNodes {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/** @source Berrut & Trefethen 2004, eq. (5.3): barycentric weights of the Chebyshev points of the first kind */
export function cosineNodes(count: number): CosineNodes {
  const angle = (j: number): number => (Math.PI * (j + 0.5)) / count;
  return {
    nodes: Float64Array.from({ length: count }, (_, j) => Math.cos(angle(j))),
    weights: Float64Array.from({ length: count }, (_, j) => (j % 2 === 0 ? 1 : -1) * Math.sin(angle(j))),
  };
}

/**
 * Writes the cardinal cosine basis at `x` into `row`: sums of cos(kπx), k < count, through the midpoints (j + ½)/count of [0, 1]. A cosine sum
 * in π·x is a polynomial in cos(π·x).
 */
export function cosineRow({ nodes, weights }: CosineNodes, x: number, row: Float64Array, at = 0): void {
  lagrangeRow(nodes, weights, Math.cos(Math.PI * x), row, at);
}
