/** How a dimension reads on the drawing: in the words of the file where it was written there. */
import type { Provenances } from "../description/provenance.ts";

/** The number and unit alone, without tolerance and origin. */
export const bareText = (text: string): string => (text.split(/±|\+\/-|\(/)[0] ?? text).trim();

/** A length on a drawing: millimetres under a metre, three decimals at most. */
export function lengthText(metres: number): string {
  const [value, unit] = Math.abs(metres) < 1 ? [metres * 1e3, "mm"] : [metres, "m"];
  return `${Number(value.toFixed(Math.abs(metres) < 1 ? 2 : 3))} ${unit}`;
}

/** Text of the value at `path`. */
export function dimensionText(path: string, value: number, quantity: string, provenances?: Provenances): string {
  const written = provenances?.get(path)?.text;
  if (written !== undefined) return bareText(written);
  if (quantity === "length") return lengthText(value);
  if (quantity === "angle") return `${Number(((value * 180) / Math.PI).toFixed(1))}°`;
  return String(Number(value.toFixed(3)));
}
