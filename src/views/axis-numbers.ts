/** Numbers along an axis, all in one unit. */
import { formatParts } from "../units/format.ts";

/** @returns the numbers of `values` in the prefixed unit that suits the end of the axis, and that unit */
export function axisNumbers(
  values: readonly number[],
  unit: string,
  end: number,
): { numbers: readonly string[]; unit: string } {
  const most = Math.abs(end);
  if (most === 0) return { numbers: values.map(String), unit };
  const greatest = formatParts(most, unit, { digits: 12 });
  const factor = Number(greatest.number) / most;
  return {
    numbers: values.map((value) => String(Number((value * factor).toPrecision(6))).replace("-", "−")),
    unit: greatest.unit,
  };
}
