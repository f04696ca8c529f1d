/** A mode of the distributed winding as the loop that stands for it in the circuit. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Farad, Henry, Hertz } from "../units/si.ts";
import type { SecondaryMode } from "./network.ts";

/**
 * The loop whose voltage is the top's, whose frequency is the mode's and whose energy is the mode's.
 *
 * A winding's current differs from base to top, so that ½·L_e·I_base² and ½·C_e·V_top² both are the energy while 1/√(L_e·C_e) is not
 * the frequency. The loop keeps C_e and takes L = 1/(ω²·C_e); its current is √(L_e/L) times that at the base, and the mutual inductance,
 * which is per ampere at the base, shrinks by the same factor, so that the coupling M/√(L_p·L) stays.
 *
 * @param frequency          [Hz] of the mode
 * @param energyInductance   [H], ½·L_e·I_base² is the energy
 * @param energyCapacitance  [F], ½·C_e·V_top² is the energy
 * @param mutual             [H] to the primary in use, weighted by the mode's current, per ampere at the base
 * @param q                  of the mode by itself; Infinity for no loss
 * @param polarity           −1 where the top falls while the net charge on the winding rises (every second mode). Default 1
 * @throws OutOfDomain       a frequency, inductance, capacitance or Q that is not positive
 * @source                   energy of a mode, distributed-resonator
 */
export function modeOfResonance({
  frequency,
  energyInductance,
  energyCapacitance,
  mutual,
  q,
  polarity = 1,
}: {
  frequency: Hertz;
  energyInductance: Henry;
  energyCapacitance: Farad;
  mutual: Henry;
  q: number;
  polarity?: 1 | -1;
}): SecondaryMode {
  if (!(frequency > 0 && energyInductance > 0 && energyCapacitance > 0 && q > 0)) {
    throw new OutOfDomain(
      "modeOfResonance",
      `needs a positive frequency, inductance, capacitance and Q, got ${frequency} Hz, ${energyInductance} H, ${energyCapacitance} F, ${q}`,
    );
  }
  const omega = 2 * Math.PI * frequency;
  const inductance = 1 / (omega * omega * energyCapacitance);
  const ratio = polarity * Math.sqrt(inductance / energyInductance);
  return {
    inductance,
    capacitance: energyCapacitance,
    resistance: (omega * inductance) / q,
    mutual: mutual * ratio,
    baseCurrentRatio: ratio,
  };
}
