/** Bytes of any kind → a song: a MIDI file, or a tune as text. */
import type { Finding } from "../../catalogue/finding.ts";
import { limits } from "./limits.ts";
import { headerAt } from "./midi/chunks.ts";
import { readMidi } from "./midi/read.ts";
import { Troubles } from "./midi/troubles.ts";
import { readNotation } from "./notation/read.ts";
import type { SongReading } from "./reading.ts";

export type { SongReading } from "./reading.ts";

/**
 * Reads a song, by what the file holds and not by its name.
 *
 * @param bytes     a Standard MIDI File (bare, in a RIFF wrapper, or behind at most 64 KiB of something else) or a tune in UTF-8
 * @param fileName  gives the song its title where the file has none
 * @returns         the song where there is one, and findings with the byte, or for a tune the line and column. Never throws.
 */
export function readSong(bytes: Uint8Array, { fileName }: { readonly fileName: string }): SongReading {
  if (bytes.length > limits.bytes)
    return refused("song-too-big", `the file has ${(bytes.length / 1048576).toFixed(1)} MiB`);
  const header = headerAt(bytes);
  const text = header === -1 ? textOf(bytes) : undefined;
  if (header === -1 && text === undefined)
    return refused("not-a-song", bytes.length === 0 ? "the file is empty" : "no `MThd` is among the first bytes");
  const reading = text === undefined ? readMidi(bytes, { header }) : readNotation(text);
  const named = fileName.replace(/^.*[\\/]/, "").replace(/\.[^.]*$/, "");
  if (reading.song === undefined || reading.song.title !== undefined || named === "") return reading;
  return { ...reading, song: { title: named, ...reading.song } };
}

function refused(kind: "song-too-big" | "not-a-song", detail: string): SongReading {
  const troubles = new Troubles();
  troubles.add(kind, { byte: 0, detail });
  const findings: readonly Finding[] = troubles.findings();
  return { findings };
}

/** The text of the bytes, or undefined where they are none: no UTF-8, or with control characters that no text has. */
function textOf(bytes: Uint8Array): string | undefined {
  if (bytes.length === 0) return undefined;
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return /[\u0000-\u0008\u000e-\u001f]/.test(text) ? undefined : text;
  } catch {
    return undefined;
  }
}
