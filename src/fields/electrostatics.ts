/** Charges on a set of conductors of revolution at given potentials. */
import { factorise, solveFactored } from "../numerics/lu.ts";
import type { Condensed } from "./off-axis.ts";
import type { Patch } from "./patch.ts";
import type { PotentialMatrix } from "./potential-matrix.ts";
import { electricConstant } from "./vacuum.ts";

export interface Conductors {
  /** The winding's cylinder, base first: its potential is free along its length. Empty where only the top load is asked for. */
  readonly winding: readonly Patch[];
  /** Everything at the top's potential. */
  readonly top: readonly Patch[];
  /** Each without charge, at whatever potential that takes: a strike ring that is not earthed. */
  readonly floating: readonly (readonly Patch[])[];
  /** Everything earthed: primary, strike ring, wall, ceiling. */
  readonly earthed: readonly Patch[];
}

export interface Electrostatics {
  /** Nodes of the winding, of the top load, and in all; the unknowns stand in the order of `patchesInOrder`. */
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

/** All patches in the order of the unknowns. */
export function patchesInOrder({ winding, top, floating, earthed }: Conductors): Patch[] {
  return [...winding, ...top, ...floating.flat(), ...earthed];
}

/**
 * The reduced capacitance matrix: all earthed conductors eliminated, all of the top load joined, floating conductors left to float.
 *
 * @param potentials  of `patchesInOrder(conductors)`, or of more
 * @param nodes       which rows of `potentials` those patches' nodes are, where it holds more
 * @param off         earthed bodies beside the axis, already condensed onto the nodes (see `condenseOffAxis`)
 * @throws RangeError  the system is singular (two conductors coincide)
 * @source collocation of the single-layer potential; this project's model (docs/field-solver.md)
 */
export function solveElectrostatics({
  conductors,
  potentials,
  nodes,
  off = [],
}: {
  conductors: Conductors;
  potentials: PotentialMatrix;
  nodes?: readonly number[];
  off?: readonly Condensed[];
}): Electrostatics {
  const size = nodes?.length ?? potentials.size;
  const system = systemOf(potentials, nodes, off);
  const windingNodes = nodesOf(conductors.winding);
  const topNodes = nodesOf(conductors.top);
  const free = windingNodes + (topNodes > 0 ? 1 : 0);
  const columns = free + conductors.floating.length;
  const sides = new Float64Array(size * columns);
  for (let i = 0; i < windingNodes; i++) sides[i * columns + i] = 1;
  for (let i = windingNodes; i < windingNodes + topNodes; i++) sides[i * columns + free - 1] = 1;
  const floats = floatingRanges(conductors, windingNodes + topNodes);
  floats.forEach(({ from, to }, f) => {
    for (let i = from; i < to; i++) sides[i * columns + free + f] = 1;
  });
  const unit = solveFactored(factorise(system, size), sides, columns);
  floats.forEach((range, f) => {
    releaseFloating({ unit, size, columns, column: free + f, range });
  });
  const farads = 4 * Math.PI * electricConstant;
  const charges = new Float64Array(size * free);
  for (let i = 0; i < size; i++) for (let j = 0; j < free; j++) charges[i * free + j] = farads * unit[i * columns + j]!;
  return {
    windingNodes,
    topNodes,
    nodes: size,
    free,
    charges,
    capacitance: reduce(charges, { windingNodes, topNodes, free }),
  };
}

let workspace = new Float64Array(0);

/** The chosen rows and columns, less what the bodies beside the axis take; in a workspace that every solution overwrites. */
function systemOf(
  { matrix, size }: PotentialMatrix,
  nodes: readonly number[] | undefined,
  off: readonly Condensed[],
): Float64Array {
  const count = nodes?.length ?? size;
  if (workspace.length < count * count) workspace = new Float64Array(count * count);
  const system = workspace.subarray(0, count * count);
  if (nodes === undefined) {
    system.set(matrix);
    for (const { correction } of off) for (let i = 0; i < system.length; i++) system[i]! -= correction[i]!;
    return system;
  }
  for (let i = 0; i < count; i++) {
    const row = nodes[i]! * size;
    for (let j = 0; j < count; j++) {
      let value = matrix[row + nodes[j]!]!;
      for (const { correction } of off) value -= correction[row + nodes[j]!]!;
      system[i * count + j] = value;
    }
  }
  return system;
}

function nodesOf(patches: readonly Patch[]): number {
  return patches.reduce((sum, patch) => sum + patch.count, 0);
}

interface Range {
  readonly from: number;
  readonly to: number;
}

function floatingRanges({ floating }: Conductors, start: number): Range[] {
  let from = start;
  return floating.map((patches) => {
    const range = { from, to: from + nodesOf(patches) };
    from = range.to;
    return range;
  });
}

/** Adds to every column as much of the floating conductor's own as takes its charge away. */
function releaseFloating({
  unit,
  size,
  columns,
  column,
  range,
}: {
  unit: Float64Array;
  size: number;
  columns: number;
  column: number;
  range: Range;
}): void {
  const chargeOf = (c: number): number => {
    let sum = 0;
    for (let i = range.from; i < range.to; i++) sum += unit[i * columns + c]!;
    return sum;
  };
  const own = chargeOf(column);
  for (let c = 0; c < columns; c++) {
    if (c === column) continue;
    const share = chargeOf(c) / own;
    for (let i = 0; i < size; i++) unit[i * columns + c]! -= share * unit[i * columns + column]!;
  }
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
