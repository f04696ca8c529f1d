/** The bring-up in words for a screen: what is expected, and how a reading compares. */
import { type Dimension, dimensions } from "../units/dimension.ts";
import { formatQuantity, formatRange } from "../units/format.ts";
import type { Comparison } from "../workbench/bringup-compare.ts";
import type { Expectation } from "../workbench/bringup-contract.ts";

/** `12.4 A, between 10.5 … 14.3 A` */
export const expectationText = ({ unit, value, low, high }: Expectation): string =>
  `${formatQuantity(value, unit, { digits: 3 })}, between ${formatRange({ low, high }, unit, { digits: 3 })}`;

/** `above the interval, by 2.1 A (17 %)`; where it is far off, how many times what was expected. */
export function comparisonText({ verdict, off, part, times }: Comparison, unit: string): string {
  if (verdict === "inside") return "inside the interval";
  const by = `${verdict} the interval, by ${formatQuantity(off, unit, { digits: 2 })}`;
  if (times >= 2) return `${by}, ${formatQuantity(times, "1", { digits: 2, trim: true })} times what was expected`;
  return part > 0 ? `${by} (${formatQuantity(100 * part, "1", { digits: 2, trim: true })} %)` : by;
}

/** What a reading in a unit is, for a field that takes it. */
export const dimensionOf = (unit: string): Dimension =>
  (Object.keys(dimensions) as Dimension[]).find((each) => dimensions[each].si === unit) ?? "ratio";
