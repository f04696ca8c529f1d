/** A pulled value as text, in the unit that the file already uses. */
import type { Provenances } from "../../description/provenance.ts";
import { formatParts, readQuantity, writeQuantity } from "../../units/index.ts";
import type { Dimension } from "../../views/drawing.ts";

const si = { length: "m", angle: "rad", count: "1", ratio: "1" } as const;

/** Rounds to a step, without the dust of binary fractions. */
export const rounded = (value: number, step: number) => Number((Math.round(value / step) * step).toPrecision(12));

/**
 * The text to write for a new value of a dimension.
 *
 * Tolerance and origin are left out: a value that was pulled is drawn, not measured.
 */
export function writtenValue({ path, quantity }: Dimension, value: number, provenances: Provenances): string {
  if (quantity === "count" || quantity === "ratio") return String(Number(value.toPrecision(9)));
  const reading = readQuantity(provenances.get(path)?.text ?? "", { dimension: quantity });
  const unit = "quantity" in reading ? reading.quantity.unit : formatParts(value, si[quantity]).unit;
  return writeQuantity({ value, unit });
}

/** A value after a pull or a press, kept on its step and above its least. */
export function pulledValue(
  { least, most = Number.POSITIVE_INFINITY, quantity }: Dimension,
  value: number,
  step: number,
): number {
  const whole = quantity === "count" ? Math.max(step, 1) : step;
  return Math.min(Math.max(rounded(value, whole), least), most);
}
