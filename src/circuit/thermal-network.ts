/** Heating of a junction over its case by a sum of exponentials (Foster terms, a fit to the data sheet's transient impedance). */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Kelvin, KelvinPerWatt, Second, Watt } from "../units/si.ts";

/** [K/W, s] */
export type FosterTerm = readonly [resistance: KelvinPerWatt, timeConstant: Second];

/**
 * Transient thermal impedance after a step of power, Z(t) = Σ r·(1 − e^(−t/τ)).
 * @returns [K/W]
 * @validity  the terms are a curve fit; their nodes are no places, and no heatsink may be chained to them
 * @source    data-sheet practice (from memory)
 */
export function transientImpedance({ terms, time }: { terms: readonly FosterTerm[]; time: Second }): KelvinPerWatt {
  requireTerms("transientImpedance", terms);
  let sum = 0;
  for (const [resistance, timeConstant] of terms) sum -= resistance * Math.expm1(-time / timeConstant);
  return sum;
}

/**
 * One stretch of constant power, exactly: T ← T·e^(−h/τ) + P·r·(1 − e^(−h/τ)) in each term.
 * @param rises  [K] of each term before; not changed
 * @returns [K] of each term after; the junction is at the case plus their sum
 */
export function thermalStep({
  terms,
  rises,
  power,
  duration,
}: {
  terms: readonly FosterTerm[];
  rises: ArrayLike<Kelvin>;
  power: Watt;
  duration: Second;
}): Float64Array {
  requireTerms("thermalStep", terms);
  if (rises.length !== terms.length)
    throw new OutOfDomain("thermalStep", `needs one rise for each of ${terms.length} terms, got ${rises.length}`);
  return Float64Array.from(terms, ([resistance, timeConstant], n) => {
    const left = Math.exp(-duration / timeConstant);
    return rises[n]! * left - power * resistance * Math.expm1(-duration / timeConstant);
  });
}

/**
 * Highest rise of the junction over the case in an endless train of equal bursts,
 * Σ P·r·(1 − e^(−t_on/τ))/(1 − e^(−T/τ)).
 *
 * @param power   [W] within the on-time
 * @param period  [s], at least the on-time
 * @returns [K], reached at the end of every burst
 * @source  geometric series over the bursts (from memory)
 */
export function steadyTrainRise({
  terms,
  power,
  onTime,
  period,
}: {
  terms: readonly FosterTerm[];
  power: Watt;
  onTime: Second;
  period: Second;
}): Kelvin {
  requireTerms("steadyTrainRise", terms);
  if (!(onTime > 0 && period >= onTime))
    throw new OutOfDomain("steadyTrainRise", `needs 0 < on-time ≤ period, got ${onTime} s and ${period} s`);
  let sum = 0;
  for (const [resistance, timeConstant] of terms)
    sum += (power * resistance * Math.expm1(-onTime / timeConstant)) / Math.expm1(-period / timeConstant);
  return sum;
}

function requireTerms(where: string, terms: readonly FosterTerm[]): void {
  for (const [resistance, timeConstant] of terms)
    if (!(resistance >= 0 && timeConstant > 0))
      throw new OutOfDomain(where, `each term needs r ≥ 0 and τ > 0, got ${resistance} K/W and ${timeConstant} s`);
}
