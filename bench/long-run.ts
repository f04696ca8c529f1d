/** One reading of a long record, by this program or by a CSV reader alone. */

export interface LongRun {
  /** As far as it tells. */
  readonly rows: number | undefined;
  /** [s]: by the clock, and of the processor; on a busy machine the first is the longer. */
  readonly clock: number;
  readonly processor: number;
  /** The most that was resident [MB]; undefined where the system does not say. */
  readonly resident: number | undefined;
  readonly says: string;
}
