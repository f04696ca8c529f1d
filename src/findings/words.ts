/** Numbers in the words of the file: for sentences, and for the edits that remedies write. */

import { type Dimension, dimensions } from "../units/dimension.ts";
import { formatQuantity, readQuantity, writeQuantity } from "../units/index.ts";
import type { Context } from "./rule.ts";

const show = (unit: string, digits: number) => (value: number) => formatQuantity(value, unit, { digits, trim: true });

export const length = show("m", 4);
/** A length that is an estimate: two digits. */
export const roughLength = (metres: number) => formatQuantity(metres, "m", { digits: 2, trim: true, lengths: "m" });
export const volts = show("V", 3);
/** A voltage that is an estimate: two digits. */
export const roughVolts = show("V", 2);
export const amperes = show("A", 3);
export const hertz = show("Hz", 4);
export const farads = show("F", 4);
export const henries = show("H", 3);
export const ohms = show("Ω", 3);
export const seconds = show("s", 3);
export const joules = show("J", 3);
export const watts = show("W", 3);
export const teslas = show("T", 3);
export const degrees = show("rad", 2);
/** A temperature of the studies, which is in °C. */
export const celsius = (value: number) => `${formatQuantity(value, "1", { digits: 3, trim: true })} °C`;
export const percent = show("%", 3);
export const number = show("1", 3);

/** A field along or on a surface as the trade says it: `3.4 kV/cm`. */
export const field = (voltsPerMetre: number) => `${formatQuantity(voltsPerMetre / 1e5, "1", { digits: 2 })} kV/cm`;

const roundings = { up: Math.ceil, down: Math.floor, near: Math.round };

/** `value` with so many significant digits, never past it in the direction that is asked for. */
export function rounded(value: number, { digits, toward }: { digits: number; toward: keyof typeof roundings }): number {
  if (value === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) + 1 - digits);
  // The bracket takes away the last bit, so that 13.0 does not become 13.1.
  return Number((roundings[toward](Number((value / step).toPrecision(12))) * step).toPrecision(12));
}

/**
 * The text to write at a path of the file: in the unit that stands there now, else in the usual one.
 * @param value  SI
 */
export function quantityText(
  context: Context,
  {
    path,
    value,
    dimension,
    digits = 3,
    toward = "near",
  }: {
    path: string;
    value: number;
    dimension: Dimension;
    digits?: number;
    toward?: keyof typeof roundings;
  },
): string {
  const written = context.provenance(path)?.text;
  const reading = written === undefined ? undefined : readQuantity(written, { dimension });
  const unit = reading !== undefined && "quantity" in reading ? reading.quantity.unit : dimensions[dimension].usual;
  const usable = unit === "AWG" ? dimensions[dimension].usual : unit;
  const one = Number(readOne(usable, dimension));
  return writeQuantity({ value: rounded(value / one, { digits, toward }) * one, unit: usable });
}

/** SI value of one of a unit; 1 for a bare ratio. */
function readOne(unit: string, dimension: Dimension): number {
  const reading = readQuantity(`1 ${unit}`.trim(), { dimension });
  return "quantity" in reading ? reading.quantity.value : 1;
}
