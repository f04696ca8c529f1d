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
