/** The hard limits that a schedule keeps, each with its exact meaning. */
import type { FosterTerm } from "../circuit/thermal-network.ts";
import type { Hertz, Kelvin, Ratio, Second, Volt, Watt } from "../units/si.ts";

/** Windows over which on-time is counted: the short one is that of the figure `programme.peakDuty`. */
export const dutyWindows = [20e-3, 1] as const satisfies readonly Second[];
/** Windows over which starts are counted. */
export const rateWindows = [0.1, 1] as const satisfies readonly Second[];
/** Window over which the energy from the bus is counted. */
export const powerWindow: Second = 1;
/** Starts are told apart, and limits held, to this [s]: a hundredth of what a microcontroller's clock resolves. */
export const timeTolerance: Second = 1e-9;

/** What a part may warm up to, and how: Foster terms in parallel, all of them driven by the same loss. */
export interface HeatLimit {
  readonly terms: readonly FosterTerm[];
  /** What the rises stand on. */
  readonly ambient: Kelvin;
  readonly most: Kelvin;
}

/**
 * No schedule sends a pulse that breaks one of these.
 *
 * - `onTime`: of every pulse.
 * - `gap`: from the end of one pulse to the start of the next.
 * - `rate`: in any half-open window of 0.1 s and of 1 s no more than rate × window starts, rounded up.
 * - `duty`: in any window of 20 ms and of 1 s no more than duty × window of on-time; a pulse across its edge counts with the part inside.
 * - `power`: the pulses that start in any window of 1 s draw no more than power × 1 s from the bus.
 * - `bus`: what the pulses of any half (a doubler: whole) period of the mains draw leaves the bus at this or above.
 * - `junction`, `capacitor`: at the end of every pulse, from cold at the start of the song.
 */
export interface ProgrammeLimits {
  readonly onTime: Second;
  readonly gap: Second;
  readonly rate: Hertz;
  readonly duty: Ratio;
  readonly power?: Watt;
  readonly bus?: Volt;
  readonly junction?: HeatLimit;
  readonly capacitor?: HeatLimit;
}

/** Starts that a window may hold. */
export function startsIn(window: Second, rate: Hertz): number {
  return Math.max(0, Math.ceil(rate * window - 1e-9));
}
