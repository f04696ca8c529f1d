/** Distances and times that people rely on, in words: rounded to the careful side. */
import { formatQuantity } from "../units/format.ts";
import type { Metre, Second } from "../units/si.ts";

/** A distance to keep, rounded up to the decimetre, or to the half foot; below a metre to the centimetre, below a yard to the inch. */
export function keepOff(distance: Metre, lengths: "m" | "in" = "m"): string {
  const up = (value: number) => Math.ceil(value - 1e-9);
  if (lengths === "in") {
    const inches = up(distance / 0.0254);
    return inches < 36 ? `${inches}\u202fin` : `${up((distance / 0.3048) * 2) / 2}\u202fft`;
  }
  const centimetres = up(distance * 100);
  const rounded = centimetres < 100 ? centimetres / 100 : up(distance * 10) / 10;
  return formatQuantity(rounded, "m", { digits: 3, lengths: "m", trim: true });
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
