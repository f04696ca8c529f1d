/** What the programme gives to the coil: every pulse that was wanted, and what became of it. */
import type { Second } from "../units/si.ts";

/** Why a pulse is not as it was wanted. The order is the code in `Schedule.reason`. */
export const reasons = [
  "none",
  "collision",
  "onTime",
  "gap",
  "rate",
  "duty",
  "power",
  "junction",
  "capacitor",
  "bus",
  "muted",
] as const;
export type Reason = (typeof reasons)[number];

/** One entry per wanted pulse, in order of `start`; arrays of equal length. Pulses sent never overlap. */
export interface Schedule {
  /** Index of the note that asked for it; -1 where several were merged. */
  readonly note: Int32Array;
  /** When it begins [s], after a shift; where dropped, when it would have begun. */
  readonly start: Float64Array;
  /** When its note asked for it [s]. */
  readonly wantedStart: Float64Array;
  /** On-time sent [s]; 0 where dropped. */
  readonly onTime: Float64Array;
  readonly wantedOnTime: Float64Array;
  /** Index into `reasons`: "none" where sent as wanted (a shift alone within its budget counts as wanted). */
  readonly reason: Uint8Array;
  /** [s] */
  readonly duration: Second;
}
