/** Junction temperature over one repetition of a steady train. */
import { type FosterTerm, thermalStep } from "../circuit/thermal-network.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Joule, Kelvin, KelvinPerWatt, Second, Watt } from "../units/si.ts";

/** A stretch of the burst over which the heat is taken as constant. */
export interface HeatStretch {
  /** [s], > 0 */
  readonly duration: Second;
  /** [J] lost in one switch with its diode over the stretch. */
  readonly energy: Joule;
}

export interface JunctionCourse {
  readonly peak: Kelvin;
  readonly mean: Kelvin;
  readonly heatsinkCase: Kelvin;
  readonly power: Watt;
  /** From the start of one burst to the start of the next: [s], [K]. */
  readonly time: Float64Array;
  readonly temperature: Float64Array;
}

/** Points of the cooling between two bursts, closer together at its start. */
const coolingPoints = 24;

/**
 * The steady state of a train: each Foster term begins where its own geometric series says, and is advanced exactly through the burst and
 * the pause. The case stands at ambient plus mean power times the heatsink's resistance: a heatsink has no time to follow a burst.
 *
 * @param stretches  of one burst, in order, together no longer than the period
 * @param terms      junction to case
 * @param heatsink   case to air of one switch, with the ambient temperature
 * @throws OutOfDomain  stretches longer than the period, a period that is not positive
 * @validity  one thermal network takes the heat of switch and diode together; losses do not rise with temperature
 * @source    foster-network
 */
export function junctionCourse({
  stretches,
  period,
  terms,
  heatsink,
}: {
  stretches: readonly HeatStretch[];
  period: Second;
  terms: readonly FosterTerm[];
  heatsink: { readonly thermal: KelvinPerWatt; readonly ambient: Kelvin };
}): JunctionCourse {
  const lasts = stretches.reduce((sum, { duration }) => sum + duration, 0);
  if (!(period > 0 && lasts <= period * (1 + 1e-9)))
    throw new OutOfDomain("junctionCourse", `the stretches of ${lasts} s must fit the period of ${period} s`);
  const energy = stretches.reduce((sum, stretch) => sum + stretch.energy, 0);
  const power = energy / period;
  const heatsinkCase = heatsink.ambient + power * heatsink.thermal;
  const pause = Math.max(0, period - lasts);

  let rises: Float64Array = new Float64Array(terms.length);
  for (const stretch of stretches) rises = heated(terms, rises, stretch);
  rises = thermalStep({ terms, rises, power: 0, duration: pause });
  // What one period adds to a term that began cold is left over, e^(−period/τ) of it, from each period before.
  rises = rises.map((rise, n) => rise / -Math.expm1(-period / terms[n]![1]));

  const time = [0];
  const temperature = [heatsinkCase + sum(rises)];
  let now = 0;
  const note = (): void => {
    time.push(now);
    temperature.push(heatsinkCase + sum(rises));
  };
  for (const stretch of stretches) {
    rises = heated(terms, rises, stretch);
    now += stretch.duration;
    note();
  }
  for (let n = 1; n <= coolingPoints && pause > 0; n++) {
    const share = (n / coolingPoints) ** 3;
    const duration = lasts + share * pause - now;
    rises = thermalStep({ terms, rises, power: 0, duration });
    now += duration;
    note();
  }
  const stationary = terms.reduce((total, [resistance]) => total + resistance, 0);
  return {
    peak: Math.max(...temperature),
    mean: heatsinkCase + power * stationary,
    heatsinkCase,
    power,
    time: Float64Array.from(time),
    temperature: Float64Array.from(temperature),
  };
}

function heated(terms: readonly FosterTerm[], rises: Float64Array, { energy, duration }: HeatStretch): Float64Array {
  return duration > 0 ? thermalStep({ terms, rises, power: energy / duration, duration }) : rises;
}

function sum(rises: Float64Array): Kelvin {
  let total = 0;
  for (const rise of rises) total += rise;
  return total;
}
