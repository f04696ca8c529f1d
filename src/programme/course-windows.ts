/** Sliding windows over the pulses that were sent. */
import type { Ratio, Second, Watt } from "../units/si.ts";
import type { Course } from "./enforce.ts";

/**
 * Duty in the window that ends with each pulse: no window holds more than the worst of these.
 * @returns one per pulse
 */
export function dutyAt({ start, onTime }: Pick<Course, "start" | "onTime">, window: Second): Float64Array {
  const duty = new Float64Array(start.length);
  let sum: Second = 0;
  let first = 0;
  for (let at = 0; at < start.length; at++) {
    sum += onTime[at]!;
    const begins = start[at]! + onTime[at]! - window;
    while (start[first]! + onTime[first]! <= begins) sum -= onTime[first++]!;
    duty[at] = (sum - Math.max(0, begins - start[first]!)) / window;
  }
  return duty;
}

/** Sum of something over the pulses that start in the half-open window up to each pulse, over the window: power of energies, rate of ones. */
export function meanAt(start: Float64Array, values: ArrayLike<number> | 1, window: Second): Float64Array {
  const mean = new Float64Array(start.length);
  let sum = 0;
  let first = 0;
  for (let at = 0; at < start.length; at++) {
    sum += values === 1 ? 1 : values[at]!;
    for (; start[first]! <= start[at]! - window; first++) sum -= values === 1 ? 1 : values[first]!;
    mean[at] = sum / window;
  }
  return mean;
}

/** Greatest of values; `none` where there are none. */
export function greatest(values: Float64Array, none = 0): Ratio | Watt {
  let most = none;
  for (const value of values) if (value > most) most = value;
  return most;
}
