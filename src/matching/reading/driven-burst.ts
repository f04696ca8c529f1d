/** One burst of a tank's current as the fit of a driven pair takes it. */

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
}

/** Cycles by which the drive may begin earlier, and later, than was read. */
export const startSlack = { earlier: 3, later: 1.6 };
