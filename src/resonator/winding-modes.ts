/** The winding as a distributed resonator: every turn's current in the magnetic field, every charge node in the electric field. */
import type { Electrostatics } from "../fields/electrostatics.ts";
import { type Patch, parameterAt } from "../fields/patch.ts";
import { cholesky, symmetricEigen } from "../numerics/eigen.ts";
import { addTransposedProduct } from "../numerics/gram.ts";
import { toeplitzOperator } from "../numerics/toeplitz.ts";
import type { Ampere, Farad, Henry, Hertz } from "../units/si.ts";

export interface WindingMode {
  readonly frequency: Hertz;
  /** Charge on every node of the field solution [C] per volt at the top. */
  readonly charges: Float64Array;
  /** Current of each turn, base first [A], per volt at the top. */
  readonly turnCurrent: Float64Array;
  /** Voltage across each turn [V] per volt at the top. */
  readonly turnVoltage: Float64Array;
  /** Current that enters the winding at its base [A] per volt at the top. */
  readonly baseCurrent: Ampere;
  /** ½·L·I_base² and ½·C·V_top² are each the energy stored. */
  readonly energyInductance: Henry;
  readonly energyCapacitance: Farad;
}

/** Eigenvalues below this share of the first are rounding: a winding has no more modes than turns. */
const least = 1e-9;

/** The magnetic half of the resonator; it does not change with the surroundings. */
export interface WindingMagnetics {
  readonly turns: number;
  /** Free charges: the winding's nodes, and the top load where there is one. */
  readonly free: number;
  /** [turns × free]: the part of each free charge that passes through each turn. */
  readonly carried: Float64Array;
  /** [turns × free] L·carried [H]. */
  readonly linked: Float64Array;
  /** [free × free] carriedᵀ·L·carried [H]. */
  readonly inductance: Float64Array;
}

/**
 * Reduces the winding's full inductance matrix onto its charge nodes.
 *
 * @param patch    the winding's cylinder, with cosine nodes; turn j of N is crossed at the share (j + ½)/N of its length
 * @param column   mutual inductance of two turns by their distance in turns, the self term first [H], [turns]
 * @param hasTop   whether a top load is joined to the last turn
 * @param shorted  a closed turn beside the winding: its inductance and its mutual to each turn [H]
 */
export function windingMagnetics({
  patch,
  column,
  hasTop,
  shorted,
}: {
  patch: Patch;
  column: Float64Array;
  hasTop: boolean;
  shorted?: { readonly inductance: Henry; readonly toTurns: Float64Array } | undefined;
}): WindingMagnetics {
  const turns = column.length;
  const free = patch.count + (hasTop ? 1 : 0);
  const carried = carriedFor(patch, turns, hasTop);
  const linked = toeplitzOperator(column, "even").times(carried, free);
  if (shorted) opposeBy(shorted, { carried, linked, turns, free });
  const inductance = new Float64Array(free * free);
  addTransposedProduct({ into: inductance, left: carried, right: linked, shared: turns, rows: free, columns: free });
  symmetrise(inductance, free);
  return { turns, free, carried, linked, inductance };
}

/** What is not symmetric is rounding. */
function symmetrise(matrix: Float64Array, size: number): void {
  for (let a = 0; a < size; a++) for (let c = 0; c < a; c++) matrix[c * size + a] = matrix[a * size + c]!;
}

/** The shorted turn's current cancels the flux through it, which takes m·mᵀ/L from the winding's matrix. */
function opposeBy(
  { inductance, toTurns }: { readonly inductance: Henry; readonly toTurns: Float64Array },
  { carried, linked, turns, free }: { carried: Float64Array; linked: Float64Array; turns: number; free: number },
): void {
  for (let c = 0; c < free; c++) {
    let flux = 0;
    for (let j = 0; j < turns; j++) flux += toTurns[j]! * carried[j * free + c]!;
    for (let j = 0; j < turns; j++) linked[j * free + c]! -= (toTurns[j]! * flux) / inductance;
  }
}

/**
 * The first modes of the winding with its top load and surroundings.
 *
 * Charge q on the free nodes gives the potentials v = C⁻¹·q, and the currents that carry it there give v = ω²·G·q with G = B·L·Bᵀ,
 * where B[n, j] is the part of node n's charge that passes through turn j. So G·C·v = v/ω².
 *
 * @param count  modes wanted, lowest first
 * @validity quasi-static, lossless; base earthed, top turn joined to the top load; current uniform within a turn
 * @throws RangeError where the capacitance matrix is not positive definite (conductors that cross)
 * @source this project's model (docs/field-solver.md)
 */
export function windingModes({
  magnetics,
  electrostatics,
  count,
}: {
  magnetics: WindingMagnetics;
  electrostatics: Electrostatics;
  count: number;
}): WindingMode[] {
  const { free, linked, carried, turns } = magnetics;
  const lower = cholesky(electrostatics.capacitance, free);
  const { values, vectors } = symmetricEigen(congruent(magnetics.inductance, lower, free), free);
  const found = values.findIndex((value) => !(value > least * values[0]!));
  return Array.from({ length: Math.min(count, found < 0 ? free : found) }, (_, k) => {
    const omega = 1 / Math.sqrt(values[k]!);
    const vector = vectors.subarray(k * free, (k + 1) * free);
    const charge = multiplyLower(lower, vector, free);
    const potentials = solveLowerTransposed(lower, vector, free);
    const turnVoltage = product(linked, charge, turns, omega * omega);
    const top = turnVoltage.reduce((sum, v) => sum + v, 0);
    for (let i = 0; i < free; i++) {
      charge[i]! /= top;
      potentials[i]! /= top;
    }
    for (let j = 0; j < turns; j++) turnVoltage[j]! /= top;
    const baseCurrent = omega * charge.reduce((sum, q) => sum + q, 0);
    const energyCapacitance = potentials.reduce((sum, v, i) => sum + v * charge[i]!, 0);
    return {
      frequency: omega / (2 * Math.PI),
      charges: product(electrostatics.charges, potentials, electrostatics.nodes, 1),
      turnCurrent: product(carried, charge, turns, omega),
      turnVoltage,
      baseCurrent,
      energyInductance: energyCapacitance / (baseCurrent * baseCurrent),
      energyCapacitance,
    };
  });
}

/** The lowest mode's frequency alone, for a change of the surroundings. */
export function firstFrequency(magnetics: WindingMagnetics, capacitance: Float64Array): Hertz {
  const { free, inductance } = magnetics;
  const { values } = symmetricEigen(congruent(inductance, cholesky(capacitance, free), free), free);
  return 1 / (2 * Math.PI * Math.sqrt(values[0]!));
}

const carriedMatrices = new Map<string, Float64Array>();

/** `chargeThroughTurns` depends on the numbers of turns and nodes alone; the last few are kept. */
function carriedFor(patch: Patch, turns: number, hasTop: boolean): Float64Array {
  const key = `${turns} ${patch.count} ${hasTop}`;
  const carried = carriedMatrices.get(key) ?? chargeThroughTurns(patch, turns, hasTop);
  if (!carriedMatrices.has(key) && carriedMatrices.size >= 4) carriedMatrices.clear();
  carriedMatrices.set(key, carried);
  return carried;
}

/**
 * [turns × free]: the part of each node's charge that stands above each turn's centre and so passes through it. The winding's
 * charge is a cosine sum in the bunched parameter, so its running integral is a sine sum.
 */
function chargeThroughTurns(patch: Patch, turns: number, hasTop: boolean): Float64Array {
  const { count, parameters, stretch } = patch;
  const free = count + (hasTop ? 1 : 0);
  const cosines = new Float64Array(count * count);
  for (let k = 1; k < count; k++) {
    for (let n = 0; n < count; n++) cosines[k * count + n] = Math.cos(k * Math.PI * parameters[n]!);
  }
  const carried = new Float64Array(turns * free);
  for (let j = 0; j < turns; j++) {
    const row = j * free;
    const parameter = parameterAt(stretch, (j + 0.5) / turns);
    carried.fill(1 - parameter, row, row + count);
    for (let k = 1; k < count; k++) {
      const sine = (-2 * Math.sin(k * Math.PI * parameter)) / (k * Math.PI);
      for (let n = 0; n < count; n++) carried[row + n]! += sine * cosines[k * count + n]!;
    }
    if (hasTop) carried[row + free - 1] = 1;
  }
  return carried;
}

/** scale · matrix·vector for a row-major matrix of `rows` rows. */
function product(matrix: Float64Array, vector: Float64Array, rows: number, scale: number): Float64Array {
  const size = vector.length;
  const out = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += matrix[i * size + j]! * vector[j]!;
    out[i] = scale * sum;
  }
  return out;
}

/** Rᵀ·G·R for lower-triangular R. */
function congruent(matrix: Float64Array, lower: Float64Array, size: number): Float64Array {
  const half = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < size; k++) {
      const g = matrix[i * size + k]!;
      for (let j = 0; j <= k; j++) half[i * size + j]! += g * lower[k * size + j]!;
    }
  }
  const out = new Float64Array(size * size);
  for (let k = 0; k < size; k++) {
    for (let i = 0; i <= k; i++) {
      const r = lower[k * size + i]!;
      for (let j = 0; j < size; j++) out[i * size + j]! += r * half[k * size + j]!;
    }
  }
  return out;
}

function multiplyLower(lower: Float64Array, vector: Float64Array, size: number): Float64Array {
  const out = new Float64Array(size);
  for (let i = 0; i < size; i++) for (let j = 0; j <= i; j++) out[i]! += lower[i * size + j]! * vector[j]!;
  return out;
}

function solveLowerTransposed(lower: Float64Array, vector: Float64Array, size: number): Float64Array {
  const out = Float64Array.from(vector);
  for (let i = size - 1; i >= 0; i--) {
    out[i]! /= lower[i * size + i]!;
    for (let j = 0; j < i; j++) out[j]! -= lower[i * size + j]! * out[i]!;
  }
  return out;
}
