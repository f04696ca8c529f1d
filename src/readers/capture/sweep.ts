/** A file of amplitude against frequency instead of time: how it is known, and what it holds. */
import type { Finding } from "../../catalogue/finding.ts";
import type { BenchRecord, Channel } from "../../description/record.ts";
import type { CaptureSettings, Dialect } from "./dialect.ts";

const frequencyWords = /freq|^f$|^f ?[([]/i;

/** The first column that is a frequency: then the file is a sweep and has no time. */
export function frequencyColumn(dialect: Dialect | undefined): number | undefined {
  const at = dialect?.columns.findIndex(({ unit, name }) => unit === "Hz" || frequencyWords.test(name));
  return at === undefined || at < 0 ? undefined : at;
}

/** With what the file is read once more: its frequencies as a channel, and no time. What was said of it stays. */
export function sweepSettings<Settings extends CaptureSettings>(
  settings: Settings,
  { columns }: Dialect,
  frequency: number,
): Settings {
  const unit = columns[frequency]?.written;
  const known = unit === undefined || unit === "" ? {} : { unit };
  const column = { ...known, ...settings.columns?.[frequency], use: "channel" as const };
  return { ...settings, columns: { ...settings.columns, [frequency]: column }, interval: 1 };
}

/** What the first reading said that is true of a sweep. */
export const sweepFindings = (findings: readonly Finding[]): readonly Finding[] =>
  findings.filter(({ rule }) => rule === "capture-frequency-guessed");

const isPhase = ({ name, unit }: Channel): boolean => unit === "rad" || unit === "°" || /phase|phi|φ/i.test(name);

/** Greatest less least, decibels and amplitudes alike. */
function spanOf({ samples }: Channel): number {
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of samples) {
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
  }
  return greatest - least;
}

/** An amplitude is not negative: a column that mostly is counts in decibels, whatever its header says. */
const isBelowZero = ({ samples }: Channel): boolean =>
  2 * samples.reduce((count, value) => count + (value < 0 ? 1 : 0), 0) > samples.length;

/**
 * Frequency and amplitude of a record whose columns are channels; decibels become amplitudes. Undefined where one of the two is missing.
 * @param frequencyName  of the column that is the frequency
 */
export function sweepOf(
  { channels }: BenchRecord,
  frequencyName: string,
): { frequency: ArrayLike<number>; amplitude: ArrayLike<number> } | undefined {
  const frequency = channels.find(({ name, unit }) => unit === "Hz" || name === frequencyName);
  const amplitudes = channels.filter((channel) => channel !== frequency && !isPhase(channel));
  // Beside the coil's channel there may be the generator's own, which stands still.
  const amplitude = amplitudes.reduce<Channel | undefined>(
    (best, one) => (best && spanOf(best) >= spanOf(one) ? best : one),
    undefined,
  );
  if (!frequency || !amplitude) return undefined;
  const decibel = /\bdb/i.test(amplitude.unit) || /\bdb/i.test(amplitude.name) || isBelowZero(amplitude);
  return {
    frequency: frequency.samples,
    amplitude: decibel ? amplitude.samples.map((value) => 10 ** (value / 20)) : amplitude.samples,
  };
}
