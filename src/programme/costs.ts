/** What a pulse costs, by its on-time and the bus voltage it finds. */
import type { Joule, Ratio, Second } from "../units/si.ts";

/** One cost over the on-time: values at even steps from 0, a straight line between them, and a power law of the bus. */
export interface CostTable {
  /** [s] between the values; the first is at 0. */
  readonly step: Second;
  /** [J] at the full bus. */
  readonly values: Float64Array;
  /** Of the bus over the full bus, at the same on-times. */
  readonly exponents: Float64Array;
}

/** None of them falls with the on-time or with the bus: each is the greatest so far along the on-time, which only overstates. */
export interface PulseCosts {
  /** From the bus, less what comes back to it. */
  readonly drawn: CostTable;
  /** Lost in one switch with its diode. */
  readonly switchLoss: CostTable;
  /** Lost in one capacitor of the bank. */
  readonly bankLoss: CostTable;
}

/**
 * A cost read off its table.
 * @param bus  over the full bus, 0 to 1
 * @validity   on-times past the end of the table cost what its end costs: no plan goes there, since the table reaches to the longest on-time
 */
export function costAt({ step, values, exponents }: CostTable, onTime: Second, bus: Ratio): Joule {
  const at = Math.min(values.length - 1.000001, onTime / step);
  const below = Math.floor(at);
  const share = at - below;
  const value = values[below]! + share * (values[below + 1]! - values[below]!);
  if (bus >= 1) return value;
  return value * bus ** (exponents[below]! + share * (exponents[below + 1]! - exponents[below]!));
}

/** The longest on-time up to `most` that a condition still holds for: where it holds for one, it must hold for all that are shorter. */
export function longestThat(holds: (onTime: Second) => boolean, most: Second): Second {
  if (holds(most)) return most;
  let [low, high] = [0, most];
  for (let n = 0; n < bisections; n++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** To a 4000th of the on-time. */
const bisections = 12;
