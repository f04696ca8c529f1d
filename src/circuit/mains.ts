/** Mains to bus: peak, energy, discharge. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Farad, Joule, Ohm, Second, Volt } from "../units/si.ts";

/**
 * Peak of a sine of given effective value.
 * @returns [V], √2·rms
 */
export function mainsPeak(rms: Volt): Volt {
  return Math.SQRT2 * rms;
}

/**
 * Energy in a capacitor, ½·C·V².
 * @source definition of capacitance
 */
export function capacitorEnergy({ capacitance, voltage }: { capacitance: Farad; voltage: Volt }): Joule {
  return 0.5 * capacitance * voltage * voltage;
}

/**
 * Time for a capacitor to fall from one voltage to another through a resistor, R·C·ln(V₀/V).
 * @returns [s]; 0 where it begins at or below the end, Infinity without a resistor (undefined)
 * @throws OutOfDomain  an end voltage, a capacitance or a resistance that is not positive
 * @validity  a linear resistor; electrolytic capacitors regain a few per cent of their voltage afterwards (from memory)
 * @source    exponential discharge
 */
export function dischargeTime({
  from,
  to,
  capacitance,
  resistance,
}: {
  from: Volt;
  to: Volt;
  capacitance: Farad;
  resistance: Ohm | undefined;
}): Second {
  if (!(to > 0 && capacitance > 0))
    throw new OutOfDomain("dischargeTime", "needs a positive end voltage and capacitance");
  if (from <= to) return 0;
  if (resistance === undefined) return Number.POSITIVE_INFINITY;
  if (!(resistance > 0)) throw new OutOfDomain("dischargeTime", `needs a positive resistance, got ${resistance} Ω`);
  return resistance * capacitance * Math.log(from / to);
}
