/** What the enamel and the air between two touching turns hold. */
import { OutOfDomain } from "../../catalogue/errors.ts";
import type { Metre, Ratio, Volt } from "../../units/si.ts";

/** Least voltage [V peak] at which any gap of air breaks down; quoted experimental minimum. Source: paschen. */
export const paschenMinimum: Volt = 327;

/** Breakdown voltage of the enamel [V], grade 1 in the sizes used here. Source: iec-60317. */
export const enamelBreakdown: Volt = 2200;

/** Relative permittivity taken for enamel; polyurethane and polyester lie between 3 and 4. From memory. */
const enamelPermittivity: Ratio = 3.5;

/**
 * Peak voltage between two touching enamelled wires at which the air beside the contact first discharges.
 *
 *   U = √2 · 163·(2t/ε)^0.46 V, t in µm
 *
 * @param bare, overall  diameters [m], overall > bare > 0; 2t is their difference
 * @returns  [V] peak
 * @throws OutOfDomain  there is no enamel between the diameters
 * @validity  enamel of 5 to 100 µm a side, air at about 1013 hPa, mains frequency; at radio frequency it starts no later
 * @source    partial-discharge-inception
 */
export function partialDischargeInception({ bare, overall }: { bare: Metre; overall: Metre }): Volt {
  if (!(bare > 0 && overall > bare)) {
    throw new OutOfDomain("partialDischargeInception", `overall must exceed bare, got ${overall} m over ${bare} m`);
  }
  const enamelOnBoth = (overall - bare) * 1e6;
  return Math.SQRT2 * 163 * (enamelOnBoth / enamelPermittivity) ** 0.46;
}
