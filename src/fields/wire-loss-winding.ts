/** What a single-layer winding loses at one frequency, for the current that each of its turns carries. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import { toeplitzMultiply } from "../numerics/toeplitz.ts";
import type { Hertz, Metre, Ohm } from "../units/si.ts";
import type { EvenWinding } from "./inductance.ts";
import { ringFieldInto } from "./rings-field.ts";
import { magneticConstant } from "./vacuum.ts";
import { dcResistance, type OhmMetre, skinDepth, skinResistanceRatio, transverseLossFactor } from "./wire-loss.ts";

export interface WindingLoss {
  /** [m], along the helix. */
  readonly wireLength: Metre;
  readonly resistanceDc: Ohm;
  /** Skin effect alone, weighted by the square of the current and referred to the base current. */
  readonly resistanceSkin: Ohm;
  /** The same with the loss in the field of all other turns. */
  readonly resistanceAc: Ohm;
}

/** Length of a helix of even pitch. [m] */
export function helixLength({ radius, pitch, turns }: EvenWinding): Metre {
  return turns * Math.hypot(2 * Math.PI * radius, pitch);
}

/**
 * Resistances of a single-layer winding of round wire.
 *
 *   R_skin = R_dc·F·mean(i²),   R_ac = R_skin + 2·Σ_j ℓ_turn·(P'/H²)·H_j²,   i = current of the turn per ampere at the base
 *
 * H_j is the field, radial and axial, that all other turns make at turn j: two Toeplitz products, even for the axial part and odd for the radial.
 *
 * @param wireDiameter  [m], bare
 * @param current       [turns], base first, per ampere at the base, all in phase
 * @throws OutOfDomain  `current` has not one entry per turn; else as `skinDepth` and `dcResistance`
 * @validity  as `transverseLossFactor`: ±10 % for thin wire, ±30 % for close-wound wire thicker than two skin depths. The part of a turn's
 *            field that its own curvature makes is left out.
 * @source    skin-effect-bessel; proximity-orthogonality
 */
export function windingLoss({
  winding,
  wireDiameter,
  frequency,
  resistivity,
  current,
}: {
  winding: EvenWinding;
  wireDiameter: Metre;
  frequency: Hertz;
  resistivity: OhmMetre;
  current: Float64Array;
}): WindingLoss {
  const { turns } = winding;
  if (current.length !== turns) {
    throw new OutOfDomain("windingLoss", `needs one current for each of ${turns} turns, got ${current.length}`);
  }
  const wireLength = helixLength(winding);
  const depth = skinDepth({ frequency, resistivity });
  const resistanceDc = dcResistance({ diameter: wireDiameter, length: wireLength, resistivity });
  const field = fieldOfOtherTurns(winding, current);
  let currentSquares = 0;
  let fieldSquares = 0;
  for (let j = 0; j < turns; j++) {
    currentSquares += current[j]! * current[j]!;
    fieldSquares += field.radial[j]! * field.radial[j]! + field.axial[j]! * field.axial[j]!;
  }
  const ratio = skinResistanceRatio({ diameter: wireDiameter, skinDepth: depth });
  const resistanceSkin = (resistanceDc * ratio * currentSquares) / turns;
  const perSquare = transverseLossFactor({ diameter: wireDiameter, skinDepth: depth, frequency });
  const resistanceProximity = (2 * perSquare * fieldSquares * (wireLength / turns)) / magneticConstant ** 2;
  return { wireLength, resistanceDc, resistanceSkin, resistanceAc: resistanceSkin + resistanceProximity };
}

/** Flux density [T] that all other turns make at each turn. [turns], base first, each. */
function fieldOfOtherTurns(winding: EvenWinding, current: Float64Array): { radial: Float64Array; axial: Float64Array } {
  const { radius, pitch, turns } = winding;
  const radialColumn = new Float64Array(turns);
  const axialColumn = new Float64Array(turns);
  const pair = new Float64Array(2);
  for (let offset = 1; offset < turns; offset++) {
    ringFieldInto(radius, radius, offset * pitch, pair);
    radialColumn[offset] = pair[0]!;
    axialColumn[offset] = pair[1]!;
  }
  return {
    radial: toeplitzMultiply({ firstColumn: radialColumn, matrix: current, columns: 1, symmetry: "odd" }),
    axial: toeplitzMultiply({ firstColumn: axialColumn, matrix: current, columns: 1 }),
  };
}
