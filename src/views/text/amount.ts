/** A figure's value as the bench says it, where its SI unit is not what the bench says. */
import { type FormatOptions, type FormattedParts, formatParts } from "../../units/format.ts";

/** Units of the bench for units of the catalogue: what one of the first is in the second. */
const benchUnits: Readonly<Record<string, { readonly unit: string; readonly size: number }>> = {
  "V/s": { unit: "V/µs", size: 1e6 },
};

/** As `formatParts`, in the bench's unit. */
export function amountParts(value: number, unit: string, options: FormatOptions = {}): FormattedParts {
  const bench = benchUnits[unit];
  return bench === undefined ? formatParts(value, unit, options) : formatParts(value / bench.size, bench.unit, options);
}

/** As `formatQuantity`, in the bench's unit. */
export function amountText(value: number, unit: string, options: FormatOptions = {}): string {
  const { number, unit: shown } = amountParts(value, unit, options);
  return shown === "" ? number : `${number} ${shown}`;
}
