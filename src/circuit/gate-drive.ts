/** Gate-drive transformer and gate charge. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Coulomb, Henry, Hertz, Ratio, SquareMetre, Tesla, Volt, Watt } from "../units/si.ts";

/** Flux density in a core that a square of no mean voltage drives. */
export interface GateFlux {
  /** From one end of a half-cycle to the other, V·(T/2)/(N·A); the whole of it in the first half-cycle and after a missing edge. */
  readonly swing: Tesla;
  /** ± this in the steady state. */
  readonly steady: Tesla;
}

/**
 * @param drive     [V] of the square, from zero to its top
 * @param frequency [Hz]
 * @param turns     of the driven winding
 * @param coreArea  [m²]
 * @throws OutOfDomain  a value that is not positive
 * @validity  a square without mean voltage; one long half-cycle, as at the start of a burst at low frequency, needs more
 * @source    law of induction
 */
export function gateFlux({
  drive,
  frequency,
  turns,
  coreArea,
}: {
  drive: Volt;
  frequency: Hertz;
  turns: number;
  coreArea: SquareMetre;
}): GateFlux {
  positive("gateFlux", { drive, frequency, turns, coreArea });
  const swing = drive / (2 * frequency * turns * coreArea);
  return { swing, steady: swing / 2 };
}

/**
 * Peak magnetising current of that core in the steady state, V·T/(4·L).
 * @param inductance  [H] of the driven winding
 */
export function gateMagnetisingCurrent({
  drive,
  frequency,
  inductance,
}: {
  drive: Volt;
  frequency: Hertz;
  inductance: Henry;
}): Ampere {
  positive("gateMagnetisingCurrent", { drive, frequency, inductance });
  return drive / (4 * frequency * inductance);
}

/**
 * Power that charging and discharging one gate takes from the driver, Q_g·ΔV·f·duty.
 * @param charge  [C] total gate charge over that swing
 * @param swing   [V] from off to on
 * @param duty    share of the time in which the bridge is driven
 * @source definition of charge: each cycle moves Q_g through ΔV
 */
export function gateChargePower({
  charge,
  swing,
  frequency,
  duty,
}: {
  charge: Coulomb;
  swing: Volt;
  frequency: Hertz;
  duty: Ratio;
}): Watt {
  return charge * swing * frequency * duty;
}

function positive(where: string, values: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(values))
    if (!(value > 0)) throw new OutOfDomain(where, `${name} must be positive, got ${value}`);
}
