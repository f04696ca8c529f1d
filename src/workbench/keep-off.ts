/** Distances and times that people rely on, in words: rounded to the careful side. */
import { formatQuantity } from "../units/format.ts";
import type { Metre, Second } from "../units/si.ts";

/** A distance to keep, rounded up to the decimetre, or to the half foot. */
export function keepOff(distance: Metre, lengths: "m" | "in" = "m"): string {
  if (lengths === "in") return `${Math.ceil((distance / 0.3048) * 2 - 1e-9) / 2}\u202fft`;
  return formatQuantity(Math.ceil(distance * 10 - 1e-9) / 10, "m", { digits: 3, lengths: "m", trim: true });
}

/** A time to wait, rounded up to the second. */
export const waitFor = (time: Second): string =>
  formatQuantity(Math.ceil(time - 1e-9), "s", { digits: Math.max(3, String(Math.ceil(time)).length), trim: true });

/** How distances are written in one text: in metres, or in feet and inches. */
export interface LengthWords {
  readonly length: (value: Metre) => string;
  /** Of a distance to keep: rounded up. */
  readonly keep: (value: Metre) => string;
}

export const lengthWords = (lengths: "m" | "in" = "m"): LengthWords => ({
  length: (value) =>
    lengths === "in" && value >= 0.9144
      ? `${Number((value / 0.3048).toPrecision(2))}\u202fft`
      : formatQuantity(value, "m", { digits: 2, lengths, trim: true }),
  keep: (value) => keepOff(value, lengths),
});
