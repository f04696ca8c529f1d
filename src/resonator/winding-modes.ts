/** The winding as a distributed resonator: every turn's current in the magnetic field, every charge node in the electric field. */
import type { Electrostatics } from "../fields/electrostatics.ts";
import { parameterAt } from "../fields/patch.ts";
import { cholesky, symmetricEigen } from "../numerics/eigen.ts";
import { toeplitzOperator } from "../numerics/toeplitz.ts";
import type { Hertz, Henry, Metre } from "../units/si.ts";

export interface WindingMode {
  readonly frequency: Hertz;
  /** Potential of each free conductor (winding nodes, then the top load) per volt at the top. */
  readonly potentials: Float64Array;
  /** Charge on every node of the field solution [C] per volt at the top. */
  readonly charges: Float64Array;
  /** Current of each turn, base first [A], per volt at the top. */
  readonly turnCurrent: Float64Array;
  /** Voltage across each turn [V] per volt at the top. */
  readonly turnVoltage: Float64Array;
  /** Current that enters the winding at its base [A] per volt at the top. */
  readonly baseCurrent: number;
  /** ½·L·I_base² and ½·C·V_top² are each the energy stored. */
  readonly energyInductance: Henry;
  readonly energyCapacitance: number;
}

export interface WindingModesInput {
  readonly electrostatics: Electrostatics;
  readonly turns: number;
  readonly pitch: Metre;
  /** Mutual inductance of two turns by their distance in turns, the self term first [H]. */
  readonly inductanceColumn: Float64Array;
  readonly count: number;
}

/**
 * The first modes of the winding with its top load and surroundings.
 *
 * Charge q on the free nodes gives the potentials v = P·q, and the currents that carry it there give v = ω²·G·q with G = B·L·Bᵀ,
 * where B[n, j] is the part of node n's charge that passes through turn j. So G·C·v = v/ω².
 *
 * @validity quasi-static, lossless; base earthed, top turn joined to the top load; current uniform within a turn
 * @throws RangeError where the capacitance matrix is not positive definite (conductors that cross)
 * @source this project's model (docs/field-solver.md)
 */
export function windingModes(
  { electrostatics, turns, inductanceColumn, count }: WindingModesInput,
): readonly WindingMode[] {
  const { free, capacitance, topNodes } = electrostatics;
  const carried = chargeThroughTurns(electrostatics, turns);
  const linked = toeplitzOperator(inductanceColumn, "even").times(carried, free);
  const inductive = new Float64Array(free * free);
  for (let j = 0; j < turns; j++) {
    const row = j * free;
    for (let a = 0; a < free; a++) {
      const b = carried[row + a]!;
      if (b === 0) continue;
      for (let c = 0; c < free; c++) inductive[a * free + c]! += b * linked[row + c]!;
    }
  }
  const lower = cholesky(capacitance, free);
  const { values, vectors } = symmetricEigen(congruent(inductive, lower, free), free);
  return Array.from({ length: Math.min(count, free) }, (_, k) => {
    const omega = 1 / Math.sqrt(values[k]!);
    const charge = multiplyLower(lower, vectors.subarray(k * free, (k + 1) * free), free);
    const turnVoltage = weigh(linked, charge, turns, free, omega * omega);
    const top = turnVoltage.reduce((sum, v) => sum + v, 0);
    const turnCurrent = weigh(carried, charge, turns, free, omega / top);
    for (let j = 0; j < turns; j++) turnVoltage[j]! /= top;
    const baseCurrent = (omega / top) * charge.reduce((sum, q) => sum + q, 0);
    const potentials = solveLowerTransposed(lower, vectors.subarray(k * free, (k + 1) * free), free);
    for (let i = 0; i < free; i++) potentials[i]! /= top;
    if (topNodes > 0) potentials[free - 1] = 1;
    let electric = 0;
    for (let i = 0; i < free; i++) electric += potentials[i]! * (charge[i]! / top);
    return {
      frequency: omega / (2 * Math.PI), potentials,
      charges: weigh(electrostatics.charges, potentials, electrostatics.nodes, free, 1),
      turnCurrent, turnVoltage, baseCurrent,
      energyInductance: electric / (baseCurrent * baseCurrent), energyCapacitance: electric,
    };
  });
}

/**
 * [turns × free]: the part of each node's charge that stands above each turn's centre and so passes through it. The winding's
 * charge is a cosine sum in the bunched parameter, so its running integral is a sine sum.
 */
function chargeThroughTurns({ conductors, free, topNodes }: Electrostatics, turns: number): Float64Array {
  const patch = conductors.winding[0]!;
  const { count, parameters, stretch } = patch;
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
    if (topNodes > 0) carried[row + free - 1] = 1;
  }
  return carried;
}

/** scale · rows·vector for a row-major [rows × size] matrix. */
function weigh(matrix: Float64Array, vector: Float64Array, rows: number, size: number, scale: number): Float64Array {
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
