/** A figure read from a record, with the interval that holds the true value in 90 of 100 records. */
import { studentHalfWidth } from "../../numerics/student.ts";

export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export const intervalShare = 0.9;

/** A value with its standard error; `freedom`: how many values the error itself stands on. */
export interface Measured {
  readonly value: number;
  readonly error: number;
  readonly freedom: number;
}

export function estimateOf({ value, error, freedom }: Measured): Estimate {
  const half = error * studentHalfWidth(intervalShare, Math.max(1, freedom));
  return { value, low: value - half, high: value + half };
}

/**
 * One value out of several of the same thing, each weighted by its own error. Where they scatter more than their errors say, the
 * scatter decides.
 */
export function combined(values: readonly Measured[]): Measured | undefined {
  const usable = values.filter(({ value, error }) => Number.isFinite(value) && error > 0 && Number.isFinite(error));
  const [only] = usable;
  if (only === undefined) return undefined;
  if (usable.length === 1) return only;
  const weights = usable.map(({ error }) => 1 / (error * error));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const value = usable.reduce((sum, one, i) => sum + (weights[i] ?? 0) * one.value, 0) / total;
  const squares = usable.reduce((sum, one, i) => sum + (weights[i] ?? 0) * (one.value - value) ** 2, 0);
  const excess = squares / (usable.length - 1);
  const freedom = usable.reduce((sum, one) => sum + one.freedom, 0);
  // Up to here chance alone explains the scatter nineteen times in twenty.
  const chance = 1 + 2.5 / Math.sqrt(usable.length - 1);
  return excess > chance
    ? { value, error: Math.sqrt(excess / total), freedom: usable.length - 1 }
    : { value, error: 1 / Math.sqrt(total), freedom };
}
