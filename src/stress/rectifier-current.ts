/** The current that a rectifier with a capacitor takes from the mains in the steady state. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Farad, Hertz, Ohm, Volt, Watt } from "../units/si.ts";

export interface MainsCurrent {
  readonly rms: Ampere;
  readonly peak: Ampere;
  /** Mean power that enters the rectifier. */
  readonly power: Watt;
  /** Mean voltage across one capacitor, of a doubler across one half. */
  readonly voltage: Volt;
  /** Effective current in each bus capacitor (of a doubler, in each half), load taken as constant. */
  readonly capacitorRms: Ampere;
}

/** Steps of one mains cycle, and cycles after which a steady state must have come. */
const steps = 720;
const mostCycles = 60;
/** Charge that a cycle may gain or lose, as a part of what the load takes in it. */
const balance = 1e-3;

/**
 * Mains current of a rectifier that feeds a constant current through a source resistance, by marching the circuit until a cycle repeats.
 *
 * @param source      mains effective voltage and frequency
 * @param resistance  [Ω] of mains, thermistor when warm, and capacitor, > 0
 * @param diodeDrop   [V] of all diodes in the path
 * @param capacitance [F] seen by the rectifier; of a doubler, of each half
 * @param current     [A] of the load, constant
 * @param doubler     each half-wave charges its half
 * @throws OutOfDomain  a value that is not positive
 * @validity  resistive mains: its inductance lowers and widens the peaks; ±0.5 % of rms by the step
 * @source    ideal-rectifier, with resistance: backward Euler, charge conserved
 */
export function mainsCurrent({
  source,
  resistance,
  diodeDrop,
  capacitance,
  current,
  doubler,
}: {
  source: { readonly rms: Volt; readonly frequency: Hertz };
  resistance: Ohm;
  diodeDrop: Volt;
  capacitance: Farad;
  current: Ampere;
  doubler: boolean;
}): MainsCurrent {
  const peak = Math.SQRT2 * source.rms;
  if (!(peak > 0 && source.frequency > 0 && resistance > 0 && capacitance > 0 && current >= 0))
    throw new OutOfDomain("mainsCurrent", "needs a positive voltage, frequency, resistance and capacitance");
  const step = 1 / (source.frequency * steps);
  const gain = step / capacitance;
  const halves = doubler ? 2 : 1;
  const start = Math.max(0, peak - diodeDrop);
  const voltage = [start, start];
  const sums = { square: 0, energy: 0, peak: 0, capacitor: 0, voltage: 0 };
  const change = [0, 0];
  for (let cycle = 0; cycle < mostCycles; cycle++) {
    const before = voltage.slice();
    sums.square = 0;
    sums.energy = 0;
    sums.peak = 0;
    sums.capacitor = 0;
    sums.voltage = 0;
    for (let n = 1; n <= steps; n++) {
      const wave = peak * Math.sin((2 * Math.PI * n) / steps);
      const drive = doubler ? [wave, -wave] : [Math.abs(wave)];
      for (let half = 0; half < halves; half++) {
        const left = voltage[half]! - gain * current;
        const into = Math.max(0, (drive[half]! - diodeDrop - left) / (resistance + gain));
        voltage[half] = Math.max(0, left + gain * into);
        sums.square += into * into;
        sums.energy += into * drive[half]!;
        sums.peak = Math.max(sums.peak, into);
        if (half === 0) {
          sums.capacitor += (into - current) ** 2;
          sums.voltage += voltage[0]!;
        }
      }
    }
    const gained = voltage[0]! - before[0]!;
    if (Math.abs(gained) <= balance * current * steps * gain + 1e-9 * peak) break;
    for (let half = 0; half < halves; half++) {
      const now = voltage[half]! - before[half]!;
      // Aitken: what is left of a decay whose two last changes are known.
      const ratio = now / change[half]!;
      const jumps = cycle % 3 === 2 && ratio > 0 && ratio < 0.98;
      if (jumps) voltage[half]! += (now * ratio) / (1 - ratio);
      change[half] = jumps ? 0 : now;
    }
  }
  return {
    rms: Math.sqrt(sums.square / steps),
    peak: sums.peak,
    power: sums.energy / steps,
    voltage: sums.voltage / steps,
    capacitorRms: Math.sqrt(sums.capacitor / steps),
  };
}
