/** Charges on a set of conductors of revolution at given potentials. */
import { type Factors, factorise, solveFactored } from "../numerics/lu.ts";
import type { Condensed } from "./off-axis.ts";
import type { Patch } from "./patch.ts";
import { type PotentialMatrix, potentialMatrix } from "./potential-matrix.ts";
import { electricConstant } from "./ring-charge.ts";

export interface Conductors {
  /** The winding's cylinder, base first: its potential is free along its length. */
  readonly winding: readonly Patch[];
  /** Everything at the top's potential. */
  readonly top: readonly Patch[];
  /** Everything earthed: primary, strike ring, wall, ceiling. */
  readonly earthed: readonly Patch[];
}

export interface Electrostatics {
  readonly conductors: Conductors;
  readonly patches: readonly Patch[];
  /** First node of each patch. */
  readonly first: Int32Array;
  /** Number of nodes on the winding, on the top load and in all; they stand in this order. */
  readonly windingNodes: number;
  readonly topNodes: number;
  readonly nodes: number;
  /** Number of free potentials: one a winding node, and one for the top load where there is one. */
  readonly free: number;
  /** [nodes × free], row-major [F]: charge at each node per volt on each free potential. */
  readonly charges: Float64Array;
  /** [free × free] symmetric [F]: charge of each free conductor per volt on each; the capacitance matrix reduced. */
  readonly capacitance: Float64Array;
}

/**
 * The reduced capacitance matrix: all earthed conductors eliminated, all of the top load joined.
 *
 * @param off  earthed bodies beside the axis, already condensed onto the nodes (see `condenseOffAxis`)
 * @source collocation of the single-layer potential; this project's model (docs/field-solver.md)
 */
export function solveElectrostatics({
  conductors,
  ground,
  potentials,
  off,
}: {
  conductors: Conductors;
  ground: boolean;
  potentials?: PotentialMatrix;
  off?: readonly Condensed[];
}): Electrostatics {
  const patches = [...conductors.winding, ...conductors.top, ...conductors.earthed];
  const { size, matrix, first } = potentials ?? potentialMatrix(patches, ground);
  const system = Float64Array.from(matrix);
  for (const body of off ?? []) for (let i = 0; i < system.length; i++) system[i]! -= body.correction[i]!;
  const windingNodes = nodesOf(conductors.winding);
  const topNodes = nodesOf(conductors.top);
  const free = windingNodes + (topNodes > 0 ? 1 : 0);
  const sides = new Float64Array(size * free);
  for (let i = 0; i < windingNodes; i++) sides[i * free + i] = 1;
  for (let i = windingNodes; i < windingNodes + topNodes; i++) sides[i * free + free - 1] = 1;
  const factors: Factors = factorise(system, size);
  const charges = solveFactored(factors, sides, free);
  const farads = 4 * Math.PI * electricConstant;
  for (let i = 0; i < charges.length; i++) charges[i]! *= farads;
  return {
    conductors,
    patches,
    first,
    windingNodes,
    topNodes,
    nodes: size,
    free,
    charges,
    capacitance: reduce(charges, { windingNodes, topNodes, free }),
  };
}

export function nodesOf(patches: readonly Patch[]): number {
  return patches.reduce((sum, patch) => sum + patch.count, 0);
}

/** Joins the top load's nodes, and takes the symmetric part: what is not symmetric is the quadrature's own error. */
function reduce(
  charges: Float64Array,
  { windingNodes, topNodes, free }: { windingNodes: number; topNodes: number; free: number },
): Float64Array {
  const whole = new Float64Array(free * free);
  for (let i = 0; i < windingNodes; i++) for (let j = 0; j < free; j++) whole[i * free + j] = charges[i * free + j]!;
  for (let i = windingNodes; i < windingNodes + topNodes; i++) {
    for (let j = 0; j < free; j++) whole[(free - 1) * free + j]! += charges[i * free + j]!;
  }
  for (let i = 0; i < free; i++) {
    for (let j = 0; j < i; j++) {
      const mean = 0.5 * (whole[i * free + j]! + whole[j * free + i]!);
      whole[i * free + j] = mean;
      whole[j * free + i] = mean;
    }
  }
  return whole;
}
