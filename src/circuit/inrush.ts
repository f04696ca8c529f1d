/** What the bank asks of fuse, thermistor and contacts when the mains is switched on. */

import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Farad, Joule, Ohm, Volt } from "../units/si.ts";
import { capacitorEnergy, mainsPeak } from "./mains.ts";

/** What one switch-on does, at worst. */
export interface Inrush {
  readonly peak: Ampere;
  /** ∫i²·dt, [A²·s], to be held against the fuse's melting integral. */
  readonly squareTime: number;
  /** In the resistances, as much as the capacitor takes. */
  readonly heat: Joule;
}

/** Highest mains over its nominal voltage that is reckoned with. */
const highMains = 1.1;

/**
 * An empty bank through a resistance onto the mains at its peak, 10 % above nominal: i = (V/R)·e^(−t/RC).
 *
 * @param mains        [V] effective, nominal
 * @param resistance   [Ω] thermistor when cold, and everything else in the way
 * @param capacitance  [F] of the bank, seen from the rectifier
 * @returns V/R, V²·C/(2R) and C·V²/2 with V = 1.1·√2·mains
 * @throws OutOfDomain  a value that is not positive
 * @validity  an upper bound: a bank that charges over several half-cycles sees less; a thermistor that is still warm does not limit.
 *            For many inrushes ∫i²·dt should stay below 0.2–0.3 of the fuse's melting integral (from memory, IEC 60127 practice)
 * @source    exponential charge of a capacitor
 */
export function inrush({
  mains,
  resistance,
  capacitance,
}: {
  mains: Volt;
  resistance: Ohm;
  capacitance: Farad;
}): Inrush {
  if (!(mains > 0 && resistance > 0 && capacitance > 0))
    throw new OutOfDomain("inrush", `needs positive values, got ${mains} V, ${resistance} Ω, ${capacitance} F`);
  const voltage = highMains * mainsPeak(mains);
  return {
    peak: voltage / resistance,
    squareTime: (voltage * voltage * capacitance) / (2 * resistance),
    heat: capacitorEnergy({ capacitance, voltage }),
  };
}
