/** Pitch in semitones and frequency, in equal temperament. */
import type { Hertz } from "../units/si.ts";

/** Standard tuning frequency: the A of key 69. */
const tuning = { pitch: 69, frequency: 440 } as const;

/**
 * f = 440 Hz · 2^((p − 69)/12).
 * @param pitch  [semitones], 69 is 440 Hz; fractions lie between keys
 * @source  iso-16, equal temperament
 */
export function frequencyOf(pitch: number): Hertz {
  return tuning.frequency * 2 ** ((pitch - tuning.pitch) / 12);
}

/**
 * The pitch of a frequency, p = 69 + 12·log2(f/440 Hz).
 * @param frequency  [Hz], > 0
 */
export function pitchOf(frequency: Hertz): number {
  return tuning.pitch + 12 * Math.log2(frequency / tuning.frequency);
}

/** Interval between two frequencies [cent], positive where the first is higher. */
export function centsBetween({ from, to }: { readonly from: Hertz; readonly to: Hertz }): number {
  return 1200 * Math.log2(to / from);
}
