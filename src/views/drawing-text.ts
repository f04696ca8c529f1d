/** How a dimension reads on the drawing: in the words of the file where it was written there. */
import type { Provenances } from "../description/provenance.ts";
import { formatQuantity } from "../units/index.ts";

const units = { length: "m", angle: "rad", count: "1", ratio: "1" };

/** The number and unit alone, without tolerance and origin. */
export const bareText = (text: string): string => (text.split(/±|\+\s?\/\s?-|\(/)[0] ?? text).trim();

/** Text of the value at `path`. */
export function dimensionText(
  path: string,
  value: number,
  quantity: keyof typeof units,
  provenances?: Provenances,
): string {
  const written = provenances?.get(path)?.text;
  return written === undefined ? formatQuantity(value, units[quantity], { trim: true }) : bareText(written);
}
