/** What a file is by how it begins, for whoever was given the wrong one. */
import { headerAt } from "./midi/chunks.ts";

/** Bytes in which the key of a coil file's format is looked for. */
const looked = 65_536;

/** A MIDI file, a tune as text, or a coil file; undefined where it is none of them by its look. */
export function kindOf(bytes: Uint8Array): "midi" | "tune" | "coil" | undefined {
  if (headerAt(bytes) !== -1) return "midi";
  const text = new TextDecoder().decode(bytes.subarray(0, looked));
  if (/^tune(\s|$)/.test(text)) return "tune";
  return /^coilwright\s*:/m.test(text) ? "coil" : undefined;
}
