/** A sweep whose columns have no names: two columns of numbers, the first of which can hardly be a time. */

export type Grid = "equal steps" | "equal ratios";

/** Generators for coils begin above this [Hz]; a time is written from zero, or in parts of a second. Common practice, no source. */
const lowest = 1e3;
const highest = 1e9;
/** Fewer points show no resonance. */
const fewest = 8;
/** A linear sweep begins at least this many of its steps above zero; a time begins at zero, or before it. */
const stepsFromZero = 3;
/** How far a point may be from its place, in steps: frequencies are written rounded. */
const offGrid = 0.6;

/**
 * How the frequencies are spaced, where the columns are frequency and amplitude. Amplitudes have one sign, decibels below zero too: what
 * swings is seen over time.
 */
export function bareSweep(frequencies: readonly number[], amplitudes: readonly number[]): Grid | undefined {
  const first = frequencies[0] ?? 0;
  const last = frequencies.at(-1) ?? 0;
  if (frequencies.length < fewest || first < lowest || last > highest) return undefined;
  if (!frequencies.every((value, n) => n === 0 || value > frequencies[n - 1]!)) return undefined;
  if (!amplitudes.every((value) => value >= 0) && !amplitudes.every((value) => value <= 0)) return undefined;
  const step = (last - first) / (frequencies.length - 1);
  if (isEven(frequencies)) return first >= stepsFromZero * step ? "equal steps" : undefined;
  return isEven(frequencies.map(Math.log)) ? "equal ratios" : undefined;
}

function isEven(values: readonly number[]): boolean {
  const first = values[0] ?? 0;
  const step = ((values.at(-1) ?? 0) - first) / (values.length - 1);
  return values.every((value, n) => Math.abs(value - first - n * step) < offGrid * step);
}
