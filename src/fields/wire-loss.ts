/** Resistance of a round copper wire: with temperature, with frequency, and in the field of its neighbours. */
import { skinRatioInto } from "../numerics/bessel.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Hertz, Kelvin, Metre, Ohm, Si } from "../units/si.ts";
import { magneticConstant } from "./vacuum.ts";

export type OhmMetre = Si<"Ω·m">;

/** [Ω·m] of annealed copper at 20 °C. @source iec-60028, 1/58 Ω·mm²/m to its five digits */
export const copperResistivity20 = 1.7241e-8;

const ratio = new Float64Array(2);

/**
 * Resistivity of annealed copper.
 *
 *   ρ = 1.7241e-8 Ω·m · (1 + 0.00393/K · (T − 293.15 K))
 *
 * @param temperature  [K]
 * @returns            [Ω·m]
 * @throws OutOfDomain  temperature outside 200 … 500 K
 * @validity  −73 … 227 °C, where the straight line holds within about 1 %; drawn wire and tube may be 3 % above, phosphorus tube more
 * @source    iec-60028
 */
export function copperResistivity(temperature: Kelvin): OhmMetre {
  if (!(temperature >= 200 && temperature <= 500)) {
    throw new OutOfDomain("copperResistivity", `temperature must lie in 200 … 500 K, got ${temperature} K`);
  }
  return copperResistivity20 * (1 + 0.00393 * (temperature - 293.15));
}

/**
 * Depth at which the current density in a thick plane conductor has fallen to 1/e: δ = √(ρ/(π·f·µ0)).
 *
 * @throws OutOfDomain  frequency or resistivity not positive
 * @source skin-effect-bessel
 */
export function skinDepth({ frequency, resistivity }: { frequency: Hertz; resistivity: OhmMetre }): Metre {
  if (!(frequency > 0 && resistivity > 0)) {
    throw new OutOfDomain(
      "skinDepth",
      `needs positive frequency and resistivity, got ${frequency} Hz, ${resistivity} Ω·m`,
    );
  }
  return Math.sqrt(resistivity / (Math.PI * frequency * magneticConstant));
}

/**
 * D.c. resistance of a round wire or rod.
 *
 * @throws OutOfDomain  diameter not positive, length negative
 */
export function dcResistance({
  diameter,
  length,
  resistivity,
}: {
  diameter: Metre;
  length: Metre;
  resistivity: OhmMetre;
}): Ohm {
  if (!(diameter > 0 && length >= 0)) {
    throw new OutOfDomain("dcResistance", `needs a positive diameter and a length, got ${diameter} m and ${length} m`);
  }
  return (4 * resistivity * length) / (Math.PI * diameter * diameter);
}

/**
 * Resistance of a straight round wire to alternating current over that to direct current.
 *
 *   F = Re[(z/2)·J0(z)/J1(z)],   z = (1 − i)·radius/δ
 *
 * F = 1 + x⁴/192 for thin wire, radius/(2δ) + 1/4 for thick; x = √2·radius/δ.
 *
 * @param diameter   [m], of the bare wire
 * @param skinDepth  [m]
 * @throws OutOfDomain  either not positive
 * @validity  alone, far from other conductors; error about 1e-15, 0.15 µs, so that no approximate form is needed
 * @source    skin-effect-bessel
 */
export function skinResistanceRatio({ diameter, skinDepth }: { diameter: Metre; skinDepth: Metre }): number {
  skinRatioInto(argument("skinResistanceRatio", { diameter, skinDepth }), ratio);
  return ratio[0]!;
}

/**
 * Power that a uniform alternating field across a round wire turns into heat, per metre of wire and per square of the field's peak.
 *
 *   P'/H² = π·ω·µ0·a²·|Im(J2(ka)/J0(ka))| = π·ω·µ0·a²·|Im(1/F)|,   F = (z/2)·J0(z)/J1(z),   z = ka
 *
 * Derivation. With A along the wire, A = C·J1(kr)·sin θ inside (k² = −iωµ0/ρ) and µ0·H·(r + D/r)·sin θ outside; A and ∂A/∂r are continuous
 * at a, which gives D = a²·J2(ka)/J0(ka). The wire is a line of magnetic moment 2πHD, and the power fed into it is ½·ω·µ0·|Im(m·H*)|. By
 * J0 + J2 = 2·J1/z, J2/J0 = 1/F − 1. Thin wire: P' = π·ω²·B²·a⁴/(8ρ). Thick wire: P' = π·a·ω·µ0·δ·H², the loss of twice the
 * field on a plane surface. The current of the wire itself makes an even field, this one an odd one: the two losses add (orthogonality).
 *
 * @param diameter   [m], of the bare wire
 * @param skinDepth  [m]
 * @param frequency  [Hz]
 * @returns          [W/m per (A/m)²], for the peak of a sinusoidal field
 * @throws OutOfDomain  an argument is not positive
 * @validity  field uniform over the wire and not changed by the neighbours' own eddy currents. A winding's resistance by it lies, against
 *            experiment (medhurst-1947, skin thin against the wire, 200 to 1000 turns, l/D 0.4 to 10), at −4 to +12 % for
 *            diameter/pitch 0.5 and −36 to +50 % for 0.9, low in short coils and high in long ones
 * @source    proximity-orthogonality; derived above
 */
export function transverseLossFactor({
  diameter,
  skinDepth,
  frequency,
}: {
  diameter: Metre;
  skinDepth: Metre;
  frequency: Hertz;
}): number {
  if (!(frequency > 0))
    throw new OutOfDomain("transverseLossFactor", `frequency must be positive, got ${frequency} Hz`);
  skinRatioInto(argument("transverseLossFactor", { diameter, skinDepth }), ratio);
  const modulus = ratio[0]! * ratio[0]! + ratio[1]! * ratio[1]!;
  return (Math.PI * 2 * Math.PI * frequency * magneticConstant * diameter * diameter * 0.25 * ratio[1]!) / modulus;
}

/** x = √2·radius/δ, the argument of Kelvin's functions. */
function argument(where: string, { diameter, skinDepth }: { diameter: Metre; skinDepth: Metre }): number {
  if (!(diameter > 0 && skinDepth > 0)) {
    throw new OutOfDomain(where, `needs a positive diameter and skin depth, got ${diameter} m and ${skinDepth} m`);
  }
  return Math.SQRT1_2 * (diameter / skinDepth);
}
