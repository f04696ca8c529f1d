/** A reading of the bring-up against what was expected. */
import type { Expectation } from "./bringup-contract.ts";

export interface Comparison {
  readonly verdict: "inside" | "below" | "above";
  /** From the nearer end of the interval, in the unit of the reading; 0 inside. */
  readonly off: number;
  /** The same as a part of the expected value; 0 where that is 0. */
  readonly part: number;
  /** The reading over the expected value; 1 where that is 0. */
  readonly times: number;
}

/** @throws nothing: a reading that is no number is compared as zero */
export function compareReading(
  { value, low, high }: Pick<Expectation, "value" | "low" | "high">,
  reading: number,
): Comparison {
  const read = Number.isFinite(reading) ? reading : 0;
  const verdict = read < low ? "below" : read > high ? "above" : "inside";
  const off = verdict === "below" ? low - read : verdict === "above" ? read - high : 0;
  return { verdict, off, part: value === 0 ? 0 : off / Math.abs(value), times: value === 0 ? 1 : read / value };
}
