/** The matrix of potential coefficients between the nodes of conductors of revolution. */
import { type GradedRule, gradedRule, selfRulesOf } from "./graded.ts";
import { locate, type Patch, type Spot } from "./patch.ts";
import { meanInverseDistance } from "./ring-charge.ts";

/** A source is near when it is closer than this many of its node spacings: the plain rule would err by more than about 1e-6. */
const nearSpacings = 2;

export interface PotentialMatrix {
  readonly size: number;
  /** [size × size], row-major: mean inverse distance [1/m] at node i of unit charge spread as node j's basis function. */
  readonly matrix: Float64Array;
  /** First node of each patch. */
  readonly first: Int32Array;
}

/**
 * Potential at every node of unit charge at every node; times 1/(4πε0) it is in V/C.
 *
 * @param patches  the conductors' patches; the order of the unknowns is theirs
 * @param ground   whether an earthed plane at z = 0 stands below (image of opposite charge)
 * @validity patches may touch at ends but not cross; with ground, all heights > 0. On smooth bodies the error falls
 *           exponentially with the number of nodes; see the field-solver tests for the measured figures.
 * @source collocation of the single-layer potential; this project's model (docs/field-solver.md)
 */
export function potentialMatrix(patches: readonly Patch[], ground: boolean): PotentialMatrix {
  const first = new Int32Array(patches.length);
  let size = 0;
  patches.forEach((patch, p) => {
    first[p] = size;
    size += patch.count;
  });
  const matrix = new Float64Array(size * size);
  patches.forEach((source, s) => {
    const column = first[s]!;
    patches.forEach((target, t) => {
      if (s === t) fillSelf(matrix, size, source, column, ground);
      else fillPair({ matrix, size, target, row: first[t]!, source, column, ground });
    });
  });
  return { size, matrix, first };
}

const spot: Spot = { r: 0, z: 0, speed: 0 };

function kernel(
  pointRadius: number,
  pointHeight: number,
  ringRadius: number,
  ringHeight: number,
  ground: boolean,
): number {
  const direct = meanInverseDistance(pointRadius, ringRadius, pointHeight - ringHeight);
  return ground ? direct - meanInverseDistance(pointRadius, ringRadius, pointHeight + ringHeight) : direct;
}

function fillSelf(matrix: Float64Array, size: number, patch: Patch, at: number, ground: boolean): void {
  const rules = selfRulesOf(patch);
  for (let i = 0; i < patch.count; i++) {
    graded({
      row: matrix,
      at: (at + i) * size + at,
      rule: rules[i]!,
      patch,
      r: patch.radius[i]!,
      z: patch.height[i]!,
      ground,
    });
  }
}

/** Potential at a point of each basis function of the patch, by a graded rule. */
function graded({
  row,
  at,
  rule,
  patch,
  r,
  z,
  ground,
}: {
  row: Float64Array;
  at: number;
  rule: GradedRule;
  patch: Patch;
  r: number;
  z: number;
  ground: boolean;
}): void {
  const { parameters, weights, basis } = rule;
  const { count } = patch;
  for (let f = 0; f < parameters.length; f++) {
    locate(patch.stretch, parameters[f]!, spot);
    const value = weights[f]! * kernel(r, z, spot.r, spot.z, ground);
    const from = f * count;
    for (let j = 0; j < count; j++) row[at + j]! += value * basis[from + j]!;
  }
  for (let j = 0; j < count; j++) row[at + j]! /= patch.weights[j]!;
}

function fillPair({
  matrix,
  size,
  target,
  row,
  source,
  column,
  ground,
}: {
  matrix: Float64Array;
  size: number;
  target: Patch;
  row: number;
  source: Patch;
  column: number;
  ground: boolean;
}): void {
  for (let i = 0; i < target.count; i++) {
    potentialsAt({
      out: matrix,
      at: (row + i) * size + column,
      patch: source,
      r: target.radius[i]!,
      z: target.height[i]!,
      ground,
    });
  }
}

/** Potential (mean inverse distance) at one point off the patch of unit charge in each of its basis functions. */
export function potentialsAt({
  out,
  at,
  patch,
  r,
  z,
  ground,
}: {
  out: Float64Array;
  at: number;
  patch: Patch;
  r: number;
  z: number;
  ground: boolean;
}): void {
  let nearest = -1;
  let nearness = nearSpacings * nearSpacings;
  for (let j = 0; j < patch.count; j++) {
    const dr = r - patch.radius[j]!;
    const dz = z - patch.height[j]!;
    const up = z + patch.height[j]!;
    const gap = dr * dr + Math.min(dz * dz, ground ? up * up : Number.POSITIVE_INFINITY);
    const spacing = patch.speed[j]! * patch.weights[j]!;
    const measure = gap / (spacing * spacing);
    if (measure < nearness) {
      nearness = measure;
      nearest = j;
    }
    out[at + j] = kernel(r, z, patch.radius[j]!, patch.height[j]!, ground);
  }
  if (nearest < 0) return;
  out.fill(0, at, at + patch.count);
  graded({
    row: out,
    at,
    rule: gradedRule(patch, closestParameter(patch, nearest, r, z, ground)),
    patch,
    r,
    z,
    ground,
  });
}

const golden = (Math.sqrt(5) - 1) / 2;

/** The parameter at which the patch (or its image) comes closest to a point, to about a thousandth of the node spacing. */
function closestParameter(patch: Patch, nearest: number, r: number, z: number, ground: boolean): number {
  const distance = (t: number): number => {
    locate(patch.stretch, t, spot);
    const dz = Math.abs(z - spot.z);
    const rise = ground ? Math.min(dz, z + spot.z) : dz;
    return (r - spot.r) ** 2 + rise * rise;
  };
  const { parameters, count } = patch;
  const closed = patch.family === "closed";
  let low = nearest > 0 ? parameters[nearest - 1]! : closed ? parameters[0]! - 1 / count : 0;
  let high = nearest < count - 1 ? parameters[nearest + 1]! : closed ? parameters[count - 1]! + 1 / count : 1;
  let a = high - golden * (high - low);
  let b = low + golden * (high - low);
  let da = distance(a);
  let db = distance(b);
  for (let pass = 0; pass < 16; pass++) {
    if (da < db) {
      high = b;
      b = a;
      db = da;
      a = high - golden * (high - low);
      da = distance(a);
    } else {
      low = a;
      a = b;
      da = db;
      b = low + golden * (high - low);
      db = distance(b);
    }
  }
  const best = 0.5 * (low + high);
  if (closed) return best;
  // The minimum often lies at an end (patches that join there); golden section only approaches it.
  const atEnds = [best, 0, 1].map((t) => ({ t, d: distance(t) }));
  return atEnds.reduce((x, y) => (y.d < x.d ? y : x)).t;
}
