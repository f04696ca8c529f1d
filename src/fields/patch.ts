/** A patch: one smooth stretch of a conductor's meridian with its own nodes, on which the charge is a polynomial or a Fourier sum. */

import { isFullTurn, type Stretch } from "../geometry/stretch.ts";
import { gaussLegendre, type Rule } from "../numerics/gauss.ts";
import {
  barycentricWeights,
  type CosineNodes,
  cosineNodes,
  cosineRow,
  lagrangeRow,
  trigonometricRow,
} from "../numerics/interpolation.ts";

export interface Patch {
  readonly stretch: Stretch;
  /** Family of nodes and basis: Fourier on a closed curve, cosines between two edges (the only one in which charge and potential of
   * a strip stay in each other's span), polynomials elsewhere. */
  readonly family: "closed" | "cosine" | "polynomial";
  readonly count: number;
  /** Node parameters in [0, 1] and quadrature weights over the parameter. */
  readonly parameters: Float64Array;
  readonly weights: Float64Array;
  /** Node positions [m], and metres of arc per unit of parameter. */
  readonly radius: Float64Array;
  readonly height: Float64Array;
  readonly speed: Float64Array;
}

/** Where a parameter lies on the meridian: filled by `locate`, reused to keep the assembly free of allocation. */
export interface Spot {
  r: number;
  z: number;
  /** Metres of arc per unit of parameter. */
  speed: number;
}

/**
 * Makes a patch with `count` nodes. At an edge the parameter is bunched like a cosine, so that a charge density growing as the
 * inverse root of the distance (or less) becomes smooth in it.
 */
export function makePatch(stretch: Stretch, count: number): Patch {
  const family = familyOf(stretch);
  const rule = family === "polynomial" ? gaussLegendre(count) : evenRule(count, family === "closed" ? 0 : 0.5);
  const { nodes: parameters, weights } = rule;
  const radius = new Float64Array(count);
  const height = new Float64Array(count);
  const speed = new Float64Array(count);
  const spot: Spot = { r: 0, z: 0, speed: 0 };
  for (let i = 0; i < count; i++) {
    locate(stretch, parameters[i]!, spot);
    radius[i] = spot.r;
    height[i] = spot.z;
    speed[i] = spot.speed;
  }
  return { stretch, family, count, parameters, weights, radius, height, speed };
}

function familyOf({ piece, from, to, starts, ends }: Stretch): Patch["family"] {
  if (isFullTurn(piece) && from === 0 && to === 1) return "closed";
  return starts === "edge" && ends === "edge" ? "cosine" : "polynomial";
}

function evenRule(count: number, offset: number): Rule {
  return {
    nodes: Float64Array.from({ length: count }, (_, i) => (i + offset) / count),
    weights: new Float64Array(count).fill(1 / count),
  };
}

/** Position and speed at a parameter of the stretch. */
export function locate(stretch: Stretch, parameter: number, spot: Spot): void {
  const { piece, from, to, starts, ends } = stretch;
  let share = parameter;
  let slope = 1;
  if (starts === "edge" && ends === "edge") {
    share = 0.5 * (1 - Math.cos(Math.PI * parameter));
    slope = 0.5 * Math.PI * Math.sin(Math.PI * parameter);
  } else if (starts === "edge") {
    share = 1 - Math.cos(0.5 * Math.PI * parameter);
    slope = 0.5 * Math.PI * Math.sin(0.5 * Math.PI * parameter);
  } else if (ends === "edge") {
    share = Math.sin(0.5 * Math.PI * parameter);
    slope = 0.5 * Math.PI * Math.cos(0.5 * Math.PI * parameter);
  }
  const s = from + (to - from) * share;
  const scale = (to - from) * slope;
  if (piece.kind === "line") {
    const dr = piece.to.r - piece.from.r;
    const dz = piece.to.z - piece.from.z;
    spot.r = piece.from.r + s * dr;
    spot.z = piece.from.z + s * dz;
    spot.speed = scale * Math.sqrt(dr * dr + dz * dz);
  } else {
    const angle = piece.from + s * (piece.to - piece.from);
    spot.r = piece.centre.r + piece.radius * Math.cos(angle);
    spot.z = piece.centre.z + piece.radius * Math.sin(angle);
    spot.speed = scale * piece.radius * Math.abs(piece.to - piece.from);
  }
  if (spot.r < 0) spot.r = 0;
}

/** The parameter at which a share of the stretch's own length (0 to 1) is reached: the inverse of the bunching. */
export function parameterAt(stretch: Stretch, share: number): number {
  const s = Math.min(1, Math.max(0, share));
  if (stretch.starts === "edge" && stretch.ends === "edge") return Math.acos(1 - 2 * s) / Math.PI;
  if (stretch.starts === "edge") return Math.acos(1 - s) / (0.5 * Math.PI);
  if (stretch.ends === "edge") return Math.asin(s) / (0.5 * Math.PI);
  return s;
}

const barycentric = new Map<number, Float64Array>();

/** Writes the patch's interpolation basis at a parameter: density(t) = Σ row[j]·density(node j). */
export function basisRow(patch: Patch, parameter: number, row: Float64Array, at = 0): void {
  const { family, count, parameters } = patch;
  if (family === "closed") trigonometricRow(count, parameter, row, at);
  else if (family === "cosine") cosineRow(chebyshevNodes(count), parameter, row, at);
  else lagrangeRow(parameters, polynomialWeights(patch), parameter, row, at);
}

const chebyshev = new Map<number, CosineNodes>();

function chebyshevNodes(count: number): CosineNodes {
  const known = chebyshev.get(count) ?? cosineNodes(count);
  chebyshev.set(count, known);
  return known;
}

function polynomialWeights({ count, parameters }: Patch): Float64Array {
  let weights = barycentric.get(count);
  if (!weights) {
    weights = barycentricWeights(parameters);
    barycentric.set(count, weights);
  }
  return weights;
}
