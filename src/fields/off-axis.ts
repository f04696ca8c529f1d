/** Upright bodies of revolution beside the coil's axis (people, rods): their charge seen through its part around the coil's axis. */

import { addTransposedProduct } from "../numerics/gram.ts";
import { type Factors, factorise, solveFactored } from "../numerics/lu.ts";
import { toroidalHarmonics } from "../numerics/toroidal.ts";
import { endRulesOf, type GradedRule, selfRulesOf } from "./graded.ts";
import { locate, type Patch, type Spot } from "./patch.ts";
import { meanInverseDistance } from "./ring-charge.ts";

/**
 * Harmonics of charge about the body's own axis, and angles over half a turn for their integrals, by its greatest radius over its distance.
 * Harmonic m adds about that ratio to the power 2m of the shift; four bring a person at 0.6 m within 2 % of a solution in three dimensions.
 */
const detail = [
  { ratioUpTo: 0.01, harmonics: 1, angles: 2 },
  { ratioUpTo: 0.06, harmonics: 2, angles: 4 },
  { ratioUpTo: Number.POSITIVE_INFINITY, harmonics: 4, angles: 10 },
] as const;

export interface OffAxisBody {
  /** Patches about the body's own axis (radius measured from it). */
  readonly patches: readonly Patch[];
  /** Distance between the body's axis and the coil's [m]. */
  readonly distance: number;
  /** Earthed, or floating with no charge in all. */
  readonly earthed: boolean;
}

export interface Condensed {
  /** [nodes × nodes] to subtract from the potential coefficients of the coil's nodes [1/m]. */
  readonly correction: Float64Array;
}

/**
 * The body eliminated from the system: P_cb·P_bb⁻¹·P_bc on the nodes of the coil and its room.
 *
 * What is left out: the part of the body's field that changes around the coil's axis, and what two such bodies do to each other.
 *
 * @param patches  of the coil and its room, in the order of the unknowns
 * @validity  the body must stand clear of every conductor, ground plane at z = 0 below; four harmonics about its own axis
 * @source this project's model (docs/field-solver.md); kernels by toroidal functions, DLMF 14.19
 */
export function condenseOffAxis(patches: readonly Patch[], body: OffAxisBody): Condensed {
  const coilRadius = concatenate(patches.map((p) => p.radius));
  const coilHeight = concatenate(patches.map((p) => p.height));
  const bodyRadius = concatenate(body.patches.map((p) => p.radius));
  const bodyHeight = concatenate(body.patches.map((p) => p.height));
  const nodes = coilRadius.length;
  const own = bodyRadius.length;
  const ratio = Math.max(...bodyRadius) / body.distance;
  const { harmonics, angles } = detail.find(({ ratioUpTo }) => ratio <= ratioUpTo)!;
  const coupling = couplings({
    harmonics,
    angles,
    coilRadius,
    coilHeight,
    bodyRadius,
    bodyHeight,
    distance: body.distance,
  });
  const correction = new Float64Array(nodes * nodes);
  const selves = ownFactors(body.patches, own, harmonics);
  for (let m = 0; m < harmonics; m++) {
    const mutual = coupling[m]!;
    const factors = selves[m]!;
    const answer = solveFactored(factors, mutual, nodes);
    if (m === 0 && !body.earthed)
      releaseCharge(answer, solveFactored(factors, new Float64Array(own).fill(1), 1), nodes);
    addTransposedProduct({
      into: correction,
      left: mutual,
      right: answer,
      shared: own,
      rows: nodes,
      columns: nodes,
      factor: m === 0 ? 1 : 2,
    });
  }
  return { correction };
}

/** A floating body takes the potential that leaves it without charge. */
function releaseCharge(answer: Float64Array, unit: Float64Array, nodes: number): void {
  const own = unit.length;
  const total = unit.reduce((sum, q) => sum + q, 0);
  for (let j = 0; j < nodes; j++) {
    let charge = 0;
    for (let b = 0; b < own; b++) charge += answer[b * nodes + j]!;
    for (let b = 0; b < own; b++) answer[b * nodes + j]! -= (charge / total) * unit[b]!;
  }
}

/** For each harmonic, [body nodes × coil nodes]: the mean over the body's circle of cos(mψ) times the kernel. */
function couplings({
  harmonics,
  angles,
  coilRadius,
  coilHeight,
  bodyRadius,
  bodyHeight,
  distance,
}: {
  harmonics: number;
  angles: number;
  coilRadius: Float64Array;
  coilHeight: Float64Array;
  bodyRadius: Float64Array;
  bodyHeight: Float64Array;
  distance: number;
}): Float64Array[] {
  const nodes = coilRadius.length;
  const own = bodyRadius.length;
  const out = Array.from({ length: harmonics }, () => new Float64Array(own * nodes));
  const cosines = Array.from({ length: harmonics }, (_, m) =>
    Float64Array.from({ length: angles }, (_, a) => Math.cos((m * Math.PI * (a + 0.5)) / angles) / angles),
  );
  for (let b = 0; b < own; b++) {
    const rho = bodyRadius[b]!;
    for (let a = 0; a < angles; a++) {
      const reach = Math.sqrt(
        distance * distance + rho * rho + 2 * distance * rho * Math.cos((Math.PI * (a + 0.5)) / angles),
      );
      for (let c = 0; c < nodes; c++) {
        const value =
          meanInverseDistance(reach, coilRadius[c]!, bodyHeight[b]! - coilHeight[c]!) -
          meanInverseDistance(reach, coilRadius[c]!, bodyHeight[b]! + coilHeight[c]!);
        for (let m = 0; m < harmonics; m++) out[m]![b * nodes + c]! += cosines[m]![a]! * value;
      }
    }
  }
  return out;
}

const spot: Spot = { r: 0, z: 0, speed: 0 };

/** Bodies whose factors are kept: they depend on the body alone, not on where it stands or on the coil. */
const bodiesKept = 8;
const known = new Map<string, readonly Factors[]>();

function ownFactors(patches: readonly Patch[], own: number, harmonics: number): readonly Factors[] {
  const key = JSON.stringify([harmonics, patches.map(({ stretch, count }) => [stretch, count])]);
  const found = known.get(key) ?? ownMatrices(patches, own, harmonics).map((matrix) => factorise(matrix, own));
  known.delete(key);
  known.set(key, found);
  if (known.size > bodiesKept) known.delete(known.keys().next().value!);
  return found;
}

/** For each harmonic, the body's own potential coefficients with its image in the ground, [own × own]. */
function ownMatrices(patches: readonly Patch[], own: number, harmonics: number): Float64Array[] {
  const out = Array.from({ length: harmonics }, () => new Float64Array(own * own));
  let row = 0;
  for (const target of patches) {
    for (let i = 0; i < target.count; i++, row++) {
      let column = 0;
      for (const source of patches) {
        const rule =
          source === target ? selfRulesOf(source)[i]! : nearRule(source, target.radius[i]!, target.height[i]!);
        const fill = harmonics === 1 ? addMean : addHarmonics;
        fill({ out, at: row * own + column, rule, source, r: target.radius[i]!, z: target.height[i]! });
        column += source.count;
      }
    }
  }
  return out;
}

/** The body's patches join at their ends, so the end nearer to the point is where its neighbour is nearly singular. */
function nearRule(source: Patch, r: number, z: number): GradedRule {
  locate(source.stretch, 0, spot);
  const start = (spot.r - r) ** 2 + (spot.z - z) ** 2;
  locate(source.stretch, 1, spot);
  const end = (spot.r - r) ** 2 + (spot.z - z) ** 2;
  return endRulesOf(source)[start <= end ? 0 : 1];
}

interface Filling {
  readonly out: readonly Float64Array[];
  readonly at: number;
  readonly rule: GradedRule;
  readonly source: Patch;
  readonly r: number;
  readonly z: number;
}

/** Harmonic 0 alone has a kernel of its own. */
function addMean({ out, at, rule, source, r, z }: Filling): void {
  for (let f = 0; f < rule.parameters.length; f++) {
    locate(source.stretch, rule.parameters[f]!, spot);
    const value = meanInverseDistance(r, spot.r, z - spot.z) - meanInverseDistance(r, spot.r, z + spot.z);
    addSpread({ matrix: out[0]!, at, rule, source, point: f, value });
  }
}

function addHarmonics({ out, at, rule, source, r, z }: Filling): void {
  const scratch = new Float64Array(out.length);
  const image = new Float64Array(out.length);
  for (let f = 0; f < rule.parameters.length; f++) {
    locate(source.stretch, rule.parameters[f]!, spot);
    toroidalHarmonics({ radiusA: r, radiusB: spot.r, separation: z - spot.z }, scratch);
    toroidalHarmonics({ radiusA: r, radiusB: spot.r, separation: z + spot.z }, image);
    for (let m = 0; m < out.length; m++) {
      addSpread({ matrix: out[m]!, at, rule, source, point: f, value: scratch[m]! - image[m]! });
    }
  }
}

function addSpread({
  matrix,
  at,
  rule,
  source,
  point,
  value,
}: {
  matrix: Float64Array;
  at: number;
  rule: GradedRule;
  source: Patch;
  point: number;
  value: number;
}): void {
  const { count, weights } = source;
  const weighed = rule.weights[point]! * value;
  for (let j = 0; j < count; j++) matrix[at + j]! += (weighed * rule.basis[point * count + j]!) / weights[j]!;
}

function concatenate(parts: readonly Float64Array[]): Float64Array {
  const whole = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
