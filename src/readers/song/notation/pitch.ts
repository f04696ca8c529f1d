/** Names of notes and their place on the scale where 69 is A4, 440 Hz. */
import type { Hertz } from "../../../units/si.ts";

const letters: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const names = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"] as const;

/** `C#4`, `Bb-1`: letter, sharp or flat, octave; octave 4 begins at the C below A4. */
export const noteNamePattern = /^([A-G])([#♯b♭]?)(-1|\d)(?![\w#♯♭])/;

/** Semitones of a match of `noteNamePattern`. */
export function pitchOfName([, letter = "", mark = "", octave = ""]: RegExpExecArray): number {
  const shift = mark === "" ? 0 : mark === "#" || mark === "♯" ? 1 : -1;
  return 12 * (Number(octave) + 1) + (letters[letter] ?? 0) + shift;
}

/** The name of a whole number of semitones, 0 to 131. */
export function nameOfPitch(pitch: number): string {
  return `${names[pitch % 12] ?? "C"}${Math.floor(pitch / 12) - 1}`;
}

/** @source iso-16: A4 = 440 Hz; equal temperament, 2^(1/12) for a semitone */
export function pitchOfFrequency(frequency: Hertz): number {
  return 69 + 12 * Math.log2(frequency / 440);
}

export function frequencyOfPitch(pitch: number): Hertz {
  return 440 * 2 ** ((pitch - 69) / 12);
}
