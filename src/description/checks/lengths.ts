/** Lengths in the words of a message. */
import { formatQuantity } from "../../units/format.ts";

/** `420 mm`: four digits, no zeros at the end. */
export function mm(length: number): string {
  return formatQuantity(length, "m", { trim: true });
}

/** The next length of four digits that is not shorter: what fits must not be rounded to what does not. */
export function mmUp(length: number): string {
  const step = 10 ** (Math.floor(Math.log10(length)) - 3);
  return mm(Math.ceil(length / step - 1e-9) * step);
}

/** The next length of four digits that is not longer. */
export function mmDown(length: number): string {
  const step = 10 ** (Math.floor(Math.log10(length)) - 3);
  return mm(Math.floor(length / step + 1e-9) * step);
}
