/** Inductances of windings and sets of rings, turn by turn. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ring } from "../parts/shape.ts";
import type { Henry, Metre } from "../units/si.ts";
import { ringMutual } from "./rings.ts";
import { selfOfRing } from "./rings-self.ts";

/** A single-layer winding of even pitch: turn j = 0 … turns − 1, base first, at `firstHeight` + j·pitch. */
export interface EvenWinding {
  /** [m], of the wire's centre line. */
  readonly radius: Metre;
  /** [m], centre to centre along the axis. */
  readonly pitch: Metre;
  readonly turns: number;
}

/**
 * First column of the winding's inductance matrix, which is symmetric and Toeplitz because the pitch is even:
 * L[i, j] = column[|i − j|]. Multiply with `toeplitzMultiply`.
 *
 * @param equivalentRadius  [m], of the wire, see `equivalentRadiusOfRound`
 * @returns                 [turns], [H]; entry 0 is the self term of one turn
 * @throws OutOfDomain      turns is not a whole number above 0, or pitch or radius is not positive
 * @validity  each turn one coaxial ring: the pitch angle of the helix is left out, of order (pitch/radius)²
 * @source    rosa-grover-169 for pairs of turns, round-wire-ring for the turn itself
 */
export function windingMatrixColumn(winding: EvenWinding & { readonly equivalentRadius: Metre }): Float64Array {
  const { radius, pitch, turns, equivalentRadius } = winding;
  if (!(Number.isInteger(turns) && turns > 0 && pitch > 0)) {
    throw new OutOfDomain("windingMatrixColumn", `needs whole turns and a positive pitch, got ${turns} and ${pitch} m`);
  }
  const column = new Float64Array(turns);
  column[0] = selfOfRing({ radius, equivalentRadius });
  for (let offset = 1; offset < turns; offset++) column[offset] = ringMutual(radius, radius, offset * pitch);
  return column;
}

/** Inductance of a winding whose turns all carry one current, from its matrix column: Σ over all pairs of turns, in O(N). [H] → [H] */
export function inductanceOfColumn(column: Float64Array): Henry {
  const turns = column.length;
  let pairs = 0;
  // The far, small terms first.
  for (let offset = turns - 1; offset > 0; offset--) pairs += (turns - offset) * column[offset]!;
  return turns * column[0]! + 2 * pairs;
}

/**
 * Inductance of a single-layer solenoid with uniform current, turn by turn.
 *
 * @throws OutOfDomain  as `windingMatrixColumn`
 * @validity  as `windingMatrixColumn`
 * @source    rosa-grover-169 for pairs of turns, round-wire-ring for the turn itself
 */
export function solenoidInductance(winding: EvenWinding & { readonly equivalentRadius: Metre }): Henry {
  return inductanceOfColumn(windingMatrixColumn(winding));
}

/**
 * Inductance of rings in series, all wound the same way.
 *
 * @param rings   the turns; one with `share` below 1 is the last turn at a tap
 * @param selfOf  self term of one turn, its share included, e.g. `(ring) => selfOfRing({ ...ring, equivalentRadius })`
 * @returns       [H], Σ self + 2·Σ share_i·share_j·M_ij. Between a full turn and an arc this is exact; between two arcs
 *                it is the mean over their angle about the axis
 * @throws OutOfDomain  two rings coincide
 */
export function ringSetInductance(rings: readonly Ring[], selfOf: (ring: Ring) => Henry): Henry {
  let total = 0;
  for (const [i, a] of rings.entries()) {
    total += selfOf(a);
    for (let j = 0; j < i; j++) total += 2 * mutualOfShares(a, rings[j]!);
  }
  return total;
}

/**
 * Mutual inductance of two sets of rings, each in series and wound the same way. Shares as in `ringSetInductance`.
 *
 * @returns  [H]
 * @throws OutOfDomain  a ring of one set coincides with one of the other
 */
export function ringSetMutual(ringsA: readonly Ring[], ringsB: readonly Ring[]): Henry {
  let total = 0;
  for (const a of ringsA) for (const b of ringsB) total += mutualOfShares(a, b);
  return total;
}

/**
 * Mutual inductance of a set of rings in series to each turn of a winding.
 *
 * @param firstHeight  [m], of the winding's lowest turn
 * @returns            [turns], base first, [H]; its sum is the mutual inductance at uniform current
 * @throws OutOfDomain  a ring coincides with a turn
 */
export function mutualToEachTurn({
  rings,
  winding,
  firstHeight,
}: {
  rings: readonly Ring[];
  winding: EvenWinding;
  firstHeight: Metre;
}): Float64Array {
  const turns = new Float64Array(winding.turns);
  for (const ring of rings) {
    for (let j = 0; j < turns.length; j++) {
      const separation = firstHeight + j * winding.pitch - ring.height;
      if (separation === 0 && ring.radius === winding.radius) coincide(ring);
      turns[j]! += ring.share * ringMutual(ring.radius, winding.radius, separation);
    }
  }
  return turns;
}

/**
 * What a closed ring (a strike ring that is not split) leaves of an inductance: a shorted turn carries the current that keeps its own flux
 * at zero.
 *
 *   M' = M − M_first·M_second / L_ring;   with first = second this is L' = L − M²/L_ring
 *
 * @param inductance      [H], the self or mutual inductance without the ring
 * @param toFirst         [H], mutual of the first circuit to the ring
 * @param toSecond        [H], of the second; the same again for a self-inductance
 * @param ringInductance  [H], > 0
 * @returns               [H]
 * @throws OutOfDomain    the ring's inductance is not positive
 * @validity  the ring's resistance is far below ωL, true of any closed metal ring above some kHz
 * @source    mesh reduction of the inductance matrix, e.g. Grover, Inductance Calculations, ch. 1 (from memory)
 */
export function withShortedTurn({
  inductance,
  toFirst,
  toSecond,
  ringInductance,
}: {
  inductance: Henry;
  toFirst: Henry;
  toSecond: Henry;
  ringInductance: Henry;
}): Henry {
  if (!(ringInductance > 0)) throw new OutOfDomain("withShortedTurn", `the ring's inductance is ${ringInductance} H`);
  return inductance - (toFirst * toSecond) / ringInductance;
}

function mutualOfShares(a: Ring, b: Ring): Henry {
  if (a.radius === b.radius && a.height === b.height) coincide(a);
  return a.share * b.share * ringMutual(a.radius, b.radius, a.height - b.height);
}

function coincide(ring: Ring): never {
  throw new OutOfDomain("ring sets", `two rings of ${ring.radius} m coincide at height ${ring.height} m`);
}
