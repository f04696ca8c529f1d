/** One burst of a tank's current as the fit of a driven pair takes it. */
import { type Changes, followingChanges, seenChanges, type ZeroSeen } from "./pair-steps.ts";

export interface DrivenBurst {
  /** From the quiet before the burst; NaN where a value does not count. */
  readonly values: Float64Array;
  /** Variance of the noise per value, greatest value, and values to a cycle. */
  readonly noise: number;
  readonly peak: number;
  readonly cycle: number;
  /** Where the drive begins, as surely as `startSlack` says; up to where it surely goes on. */
  readonly start: number;
  readonly end: number;
  /** Changes of the bridge where its output was recorded. */
  readonly changes?: readonly number[];
}

/** Cycles by which the drive may begin earlier, and later, than was read. */
export const startSlack = { earlier: 3, later: 1.6 };

export const changesOf = (burst: DrivenBurst, zeros: readonly ZeroSeen[]): Changes =>
  burst.changes === undefined
    ? followingChanges(zeros, burst.cycle)
    : seenChanges(
        zeros.map(({ at }) => at),
        burst.cycle,
      );
