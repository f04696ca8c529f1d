/** What a primary of round conductor, tube or wire, loses at one frequency. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ring } from "../parts/shape.ts";
import type { Hertz, Metre, Ohm } from "../units/si.ts";
import { ringFieldInto } from "./rings-field.ts";
import { magneticConstant } from "./vacuum.ts";
import { dcResistance, type OhmMetre, skinDepth, skinResistanceRatio, transverseLossFactor } from "./wire-loss.ts";

export interface RingsLoss {
  /** [m], of the turns, without leads. */
  readonly length: Metre;
  /** Skin effect alone. */
  readonly resistanceSkin: Ohm;
  /** With the loss in the field of the other turns. */
  readonly resistanceAc: Ohm;
}

/**
 * Resistance of rings of round conductor in series.
 *
 * A tube is taken as a solid rod. That is within 0.3 % while its wall is over 3 skin depths (0.6 mm at 100 kHz) and within 10 % down to 1.2;
 * a thinner wall loses more.
 *
 * @param rings        turns in series; a partial ring makes and feels its `share` of field and length
 * @param diameter     [m], outside
 * @returns            referred to the common current
 * @throws OutOfDomain  two rings coincide; else as `skinDepth` and `dcResistance`
 * @validity  as `transverseLossFactor`; a few turns come out low, by 5 to 20 % where the gap between turns is as wide as the tube
 * @source    skin-effect-bessel; proximity-orthogonality
 */
export function ringsLoss({
  rings,
  diameter,
  frequency,
  resistivity,
}: {
  rings: readonly Ring[];
  diameter: Metre;
  frequency: Hertz;
  resistivity: OhmMetre;
}): RingsLoss {
  const depth = skinDepth({ frequency, resistivity });
  const perSquare = transverseLossFactor({ diameter, skinDepth: depth, frequency }) / magneticConstant ** 2;
  let length = 0;
  let proximity = 0;
  for (const ring of rings) {
    const own = 2 * Math.PI * ring.radius * ring.share;
    length += own;
    proximity += 2 * perSquare * own * fieldSquareAt(ring, rings);
  }
  const ratio = skinResistanceRatio({ diameter, skinDepth: depth });
  const resistanceSkin = ratio * dcResistance({ diameter, length, resistivity });
  return { length, resistanceSkin, resistanceAc: resistanceSkin + proximity };
}

const pair = new Float64Array(2);

/** |B|² [T²] at one ring from one ampere in all the others. */
function fieldSquareAt(ring: Ring, rings: readonly Ring[]): number {
  let radial = 0;
  let axial = 0;
  for (const other of rings) {
    if (other === ring) continue;
    if (other.radius === ring.radius && other.height === ring.height) {
      throw new OutOfDomain("ringsLoss", `two rings of ${ring.radius} m coincide at height ${ring.height} m`);
    }
    ringFieldInto(other.radius, ring.radius, ring.height - other.height, pair);
    radial += other.share * pair[0]!;
    axial += other.share * pair[1]!;
  }
  return radial * radial + axial * axial;
}
