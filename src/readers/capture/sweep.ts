/** A file of amplitude against frequency instead of time: how it is known, and what it holds. */
import type { BenchRecord } from "../../description/record.ts";
import type { Dialect } from "./dialect.ts";

const frequencyWords = /freq|^f$|^f ?[([]/i;

/** The first column that is a frequency: then the file is a sweep and has no time. */
export function frequencyColumn(dialect: Dialect | undefined): number | undefined {
  const at = dialect?.columns.findIndex(({ unit, name }) => unit === "Hz" || frequencyWords.test(name));
  return at === undefined || at < 0 ? undefined : at;
}

/**
 * Frequency and amplitude of a record whose columns are channels; decibels become amplitudes. Undefined where one of the two is missing.
 * @param frequencyName  of the column that is the frequency
 */
export function sweepOf(
  { channels }: BenchRecord,
  frequencyName: string,
): { frequency: ArrayLike<number>; amplitude: ArrayLike<number> } | undefined {
  const frequency = channels.find(({ name, unit }) => unit === "Hz" || name === frequencyName);
  const amplitude = channels.find((channel) => channel !== frequency && channel.unit !== "rad" && channel.unit !== "°");
  if (!frequency || !amplitude) return undefined;
  const decibel = /\bdb/i.test(amplitude.unit) || /\bdb/i.test(amplitude.name);
  return {
    frequency: frequency.samples,
    amplitude: decibel ? amplitude.samples.map((value) => 10 ** (value / 20)) : amplitude.samples,
  };
}
