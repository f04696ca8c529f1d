/** Quantities as the sheets write them. */
import { formatQuantity } from "../../units/format.ts";
import type { Metre, Second } from "../../units/si.ts";
import type { SheetSetting } from "./sheet.ts";

/** In as few digits as it has. */
export const shown = (value: number, unit: string, digits = 4): string =>
  formatQuantity(value, unit, { digits, trim: true });

/** A length of the drawing, in the sheet's unit. */
export const lengthText = (value: Metre, { lengths }: Pick<SheetSetting, "lengths">, digits = 4): string =>
  formatQuantity(value, "m", { digits, lengths, trim: true });

/** A mark along a part: to the hundredth of a millimetre, or the thousandth of an inch. */
export const markText = (value: Metre, { lengths }: Pick<SheetSetting, "lengths">): string =>
  lengths === "mm" ? `${(value * 1000).toFixed(1)}` : `${(value / 0.0254).toFixed(3)}`;

/** kg and g, or pounds and ounces. */
export function massText(kilogram: number, { lengths }: Pick<SheetSetting, "lengths">): string {
  if (lengths === "in") {
    const ounces = kilogram / 0.028349523125;
    return ounces < 16 ? `${Number(ounces.toPrecision(3))}\u00a0oz` : `${Number((ounces / 16).toPrecision(3))}\u00a0lb`;
  }
  return kilogram < 1
    ? `${Number((kilogram * 1000).toPrecision(3))}\u00a0g`
    : `${Number(kilogram.toPrecision(3))}\u00a0kg`;
}

/** Minutes, or hours and minutes. */
export function durationText(time: Second): string {
  const minutes = Math.max(1, Math.round(time / 60));
  return minutes < 60
    ? `${minutes}\u00a0min`
    : `${Math.floor(minutes / 60)}\u00a0h ${String(minutes % 60).padStart(2, "0")}\u00a0min`;
}

/** A length of wire or lead: metres, or feet. */
export const runText = (value: Metre, { lengths }: Pick<SheetSetting, "lengths">): string =>
  lengths === "mm"
    ? formatQuantity(value, "m", { digits: 4, lengths: "m" })
    : `${Number((value / 0.3048).toPrecision(4))}\u00a0ft`;
