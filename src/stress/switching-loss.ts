/** Energy that a switch loses at a change of the gates. */
import type { Switch } from "../description/coil.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Joule, Volt } from "../units/si.ts";

/** Exponent of the voltage between the 1.3 and 1.4 of the manuals. */
const voltageExponent = 1.35;
/** Turn-on with the opposite diode's recovery over turn-off at the same current and voltage: common practice, no source. */
export const turnOnOverTurnOff = { least: 0.5, taken: 1, greatest: 2 } as const;

/**
 * Turn-off energy at a current and voltage, E_ref·(I/I_ref)·(V/V_ref)^1.35.
 *
 * @param current  [A] that the switch carries when it is put off
 * @param voltage  [V] that it blocks afterwards
 * @throws OutOfDomain  a data-sheet point that is not positive
 * @validity  about the data-sheet point, at its temperature and gate resistor; a fifth either way within a factor of two of the point
 * @source    switching-energy-scaling
 */
export function turnOffEnergy({
  turnOff,
  current,
  voltage,
}: {
  turnOff: Switch["turnOff"];
  current: Ampere;
  voltage: Volt;
}): Joule {
  const { energy, atCurrent, atVoltage } = turnOff;
  if (!(atCurrent > 0 && atVoltage > 0))
    throw new OutOfDomain("turnOffEnergy", `needs a positive data-sheet point, got ${atCurrent} A and ${atVoltage} V`);
  return energy * (Math.abs(current) / atCurrent) * (Math.max(0, voltage) / atVoltage) ** voltageExponent;
}

/**
 * Energy of turning on into a conducting diode, its recovery counted, as large as turn-off at the same current: the file has no energy
 * of its own for it.
 * @source switching-energy-scaling; the ratio is common practice, no source, a factor of two either way
 */
export function turnOnEnergy(at: { turnOff: Switch["turnOff"]; current: Ampere; voltage: Volt }): Joule {
  return turnOnOverTurnOff.taken * turnOffEnergy(at);
}
