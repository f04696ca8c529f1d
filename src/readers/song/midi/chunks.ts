/** The outer form of a Standard MIDI File: wrapper, header, chunks, and where each track's events lie. */
import type { Second } from "../../../units/si.ts";
import { counted, type Troubles } from "./troubles.ts";

export interface TrackBytes {
  /** Counts from 1, as they stand in the file. */
  readonly number: number;
  /** Bytes of its events, `to` excluded. */
  readonly from: number;
  readonly to: number;
}

/** How long a tick is: a fraction of a quarter note, whose length the tempo gives, or a fixed time. */
export type Division = { readonly ticksPerQuarter: number } | { readonly tick: Second };

export interface Layout {
  readonly format: 0 | 1 | 2;
  readonly division: Division;
  readonly tracks: readonly TrackBytes[];
}

/** An alien header (of an archive, an old desktop or a mail) is never longer than this. */
const farthestHeader = 65_536;

/** The header counts tracks in 16 bits. */
const mostTracks = 65_535;

/** Frames a second by the time-code byte; 29 stands for 30 drop frame, 30000/1001. */
const frameRates: ReadonlyMap<number, number> = new Map([
  [24, 24],
  [25, 25],
  [29, 30_000 / 1001],
  [30, 30],
]);

/** Offset of the header chunk in the first 64 KiB, or -1. */
export function headerAt(bytes: Uint8Array): number {
  return find(bytes, { text: "MThd", from: 0, to: Math.min(bytes.length, farthestHeader) });
}

/**
 * Finds the tracks. Where a length cannot be right it goes by the end-of-track events and by the next `MTrk`, and says so.
 *
 * @returns  undefined where the header cannot be used; `troubles` then holds the reason
 * @source   midi-file-1, "Chunks" and "Header chunks"
 */
export function layOut(
  bytes: Uint8Array,
  { header, troubles }: { header: number; troubles: Troubles },
): Layout | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOfWrapped(bytes, view, header);
  if (header > 0 && end === bytes.length && textAt(bytes, 0) !== "RIFF")
    troubles.add("song-before-header", { byte: 0, detail: `${header} bytes stand before the header` });
  const stop = (byte: number, detail: string): undefined => {
    troubles.add("song-header", { byte, detail });
  };

  if (header + 14 > end) return stop(header, "the file ends within its header");
  const headerLength = view.getUint32(header + 4);
  if (headerLength < 6) return stop(header + 4, `the header announces ${headerLength} bytes`);
  const written = view.getUint16(header + 8);
  const announced = view.getUint16(header + 10);
  const division = divisionOf(view.getUint16(header + 12));
  if (typeof division === "string") return stop(header + 12, division);

  // A first track right behind the six bytes is worth more than a header that announces another length.
  const first = textAt(bytes, header + 14) === "MTrk" ? header + 14 : Math.min(header + 8 + headerLength, end);
  if (first !== header + 8 + headerLength)
    troubles.add("song-header-length", { byte: header + 4, detail: `the header announces ${headerLength} bytes` });
  const tracks = tracksFrom(bytes, { at: first, end, view, troubles });
  if (tracks.length > mostTracks) return stop(first, `the file has ${tracks.length} tracks`);
  if (tracks.length !== announced)
    troubles.add("song-track-count", {
      byte: header + 10,
      detail: `the header announces ${counted(announced, "track")}, the file has ${tracks.length}`,
    });
  const format = written === 0 && tracks.length > 1 ? 1 : written === 0 || written === 2 ? written : 1;
  if (format !== written)
    troubles.add("song-format", {
      byte: header + 8,
      detail: `format ${written} with ${counted(tracks.length, "track")} was read as format ${format}`,
    });
  return { format, division, tracks };
}

function divisionOf(word: number): Division | string {
  if (word < 0x8000) return word === 0 ? "the division is 0 ticks per quarter note" : { ticksPerQuarter: word };
  const code = 256 - (word >> 8);
  const ticks = word & 0xff;
  const frames = frameRates.get(code);
  if (frames === undefined) return `the division names ${code} frames a second, which is no time code`;
  return ticks === 0 ? "the division is 0 ticks per frame" : { tick: 1 / (frames * ticks) };
}

/** A RIFF wrapper keeps the song in its `data` chunk; other chunks may follow. */
function endOfWrapped(bytes: Uint8Array, view: DataView, header: number): number {
  if (textAt(bytes, 0) !== "RIFF" || header < 20 || textAt(bytes, header - 8) !== "data") return bytes.length;
  return Math.min(bytes.length, header + view.getUint32(header - 4, true));
}

interface Walk {
  readonly at: number;
  readonly end: number;
  readonly view: DataView;
  readonly troubles: Troubles;
}

function tracksFrom(bytes: Uint8Array, { at: start, end, view, troubles }: Walk): TrackBytes[] {
  const tracks: TrackBytes[] = [];
  // The next track's place is kept, so that a file of ten thousand foreign chunks is searched once.
  let next = find(bytes, { text: "MTrk", from: start, to: end });
  for (let at = start; at < end; ) {
    if (next !== -1 && next < at) next = find(bytes, { text: "MTrk", from: at, to: end });
    if (next !== at && !isChunk(bytes, { at, end, view })) {
      const upTo = next === -1 ? end : next;
      troubles.add("song-between-chunks", { byte: at, detail: `${upTo - at} bytes belong to no chunk` });
      at = upTo;
      continue;
    }
    if (at + 8 > end) {
      troubles.add("song-chunk-length", { byte: at, detail: "the last chunk has no length" });
      break;
    }
    const from = at + 8;
    const length = view.getUint32(at + 4);
    if (next === at) {
      const to = endOfTrack(bytes, { from, length, end, troubles });
      tracks.push({ number: tracks.length + 1, from, to });
      at = to;
    } else {
      at = from + length;
    }
  }
  return tracks;
}

function endOfTrack(
  bytes: Uint8Array,
  { from, length, end, troubles }: { from: number; length: number; end: number; troubles: Troubles },
): number {
  const announced = from + length;
  const found = find(bytes, { text: "MTrk", from, to: end });
  const next = found === -1 ? end : found;
  // Events that end where the next track begins are worth more than a length that says otherwise.
  const right =
    announced <= end &&
    !(next < announced && closes(bytes, { from, to: next })) &&
    (announced === end ||
      announced === next ||
      closes(bytes, { from, to: announced }) ||
      isPrintable(bytes, announced));
  if (right) return announced;
  troubles.add("song-chunk-length", {
    byte: from - 4,
    detail: `a track announces ${length} bytes, up to its end there are ${next - from}`,
  });
  return next;
}

/** True where the bytes before `to` are an end-of-track event. */
function closes(bytes: Uint8Array, { from, to }: { from: number; to: number }): boolean {
  return to - 3 >= from && bytes[to - 3] === 0xff && bytes[to - 2] === 0x2f && bytes[to - 1] === 0;
}

/** An unknown chunk is known by four printable letters and a length that the file can hold. */
function isChunk(bytes: Uint8Array, { at, end, view }: { at: number; end: number; view: DataView }): boolean {
  return at + 8 <= end && isPrintable(bytes, at) && at + 8 + view.getUint32(at + 4) <= end;
}

function isPrintable(bytes: Uint8Array, at: number): boolean {
  for (let i = at; i < at + 4; i++) if (!((bytes[i] ?? 0) >= 0x20 && (bytes[i] ?? 0) < 0x7f)) return false;
  return true;
}

function textAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

function find(bytes: Uint8Array, { text, from, to }: { text: string; from: number; to: number }): number {
  const [a, b, c, d] = [...text].map((letter) => letter.charCodeAt(0));
  for (let at = bytes.indexOf(a ?? 0, from); at !== -1 && at + 4 <= to; at = bytes.indexOf(a ?? 0, at + 1))
    if (bytes[at + 1] === b && bytes[at + 2] === c && bytes[at + 3] === d) return at;
  return -1;
}
