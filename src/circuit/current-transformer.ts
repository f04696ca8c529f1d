/** The current transformer that senses the primary: voltage on its burden, flux in its core, lead of its phase. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Henry, Hertz, Ohm, Radian, SquareMetre, Tesla, Volt } from "../units/si.ts";

/**
 * Voltage on the burden, I·R_b/N.
 * @param current  [A] through the one primary turn
 * @param ratio    secondary turns per primary turn, N
 * @throws OutOfDomain  a ratio or burden that is not positive
 * @validity  below saturation, and while the magnetising current is small. An open secondary has no such bound: it is a hazard
 * @source    law of the current transformer
 */
export function burdenVoltage({ current, ratio, burden }: { current: Ampere; ratio: number; burden: Ohm }): Volt {
  if (!(ratio > 0 && burden > 0))
    throw new OutOfDomain("burdenVoltage", `needs a positive ratio and burden, got ${ratio} and ${burden} Ω`);
  return (current * burden) / ratio;
}

/**
 * Peak flux density in the core, (V_b + I·R_w/N)/(ω·N·A).
 * @param windingResistance  [Ω] of the secondary, R_w
 * @param coreArea           [m²]
 */
export function currentTransformerFlux({
  current,
  ratio,
  burden,
  windingResistance,
  frequency,
  coreArea,
}: {
  current: Ampere;
  ratio: number;
  burden: Ohm;
  windingResistance: Ohm;
  frequency: Hertz;
  coreArea: SquareMetre;
}): Tesla {
  if (!(frequency > 0 && coreArea > 0))
    throw new OutOfDomain("currentTransformerFlux", "needs a positive frequency and core area");
  const voltage = burdenVoltage({ current, ratio, burden: burden + windingResistance });
  return voltage / (2 * Math.PI * frequency * ratio * coreArea);
}

/**
 * Angle by which the burden's voltage leads the primary current, atan((R_b + R_w)/(ω·L_m)).
 * @param magnetisingInductance  [H] of the secondary, L_m
 * @returns [rad]
 */
export function currentTransformerLead({
  burden,
  windingResistance,
  frequency,
  magnetisingInductance,
}: {
  burden: Ohm;
  windingResistance: Ohm;
  frequency: Hertz;
  magnetisingInductance: Henry;
}): Radian {
  if (!(frequency > 0 && magnetisingInductance > 0))
    throw new OutOfDomain("currentTransformerLead", "needs a positive frequency and inductance");
  return Math.atan((burden + windingResistance) / (2 * Math.PI * frequency * magnetisingInductance));
}
