/** Round numbers along an axis. */

/**
 * Values at 1, 2 or 5 of a decade that cover `low` to `high`, about `wanted` of them, ends included only where they are round.
 *
 * @returns  ascending; empty where the interval is empty or not finite
 */
export function ticks({ low, high, wanted }: { low: number; high: number; wanted: number }): number[] {
  const span = high - low;
  if (!(span > 0) || !Number.isFinite(span)) return [];
  const raw = span / Math.max(wanted, 1);
  const decade = 10 ** Math.floor(Math.log10(raw));
  const step = decade * ([1, 2, 5, 10].find((digit) => digit * decade >= raw * 0.9999) ?? 10);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => Number(((first + index) * step).toPrecision(12)));
}
