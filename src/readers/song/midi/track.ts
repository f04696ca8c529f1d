/** One track's bytes → its events with their ticks. Stops at the first thing that is no event, and says where. */

import { nameFrom } from "../names.ts";
import type { TrackBytes } from "./chunks.ts";
import { type EventList, event } from "./events.ts";
import type { Troubles } from "./troubles.ts";

export interface TrackText {
  readonly name: string;
  /** Tick of its end. */
  readonly end: number;
}

/** Number of data bytes after a system status that no file should hold. */
const systemLengths: ReadonlyMap<number, number> = new Map([
  [0xf1, 1],
  [0xf2, 2],
  [0xf3, 1],
  [0xf6, 0],
]);

const meta = { name: 0x03, port: 0x21, end: 0x2f, tempo: 0x51 } as const;

/** After F0: universal non-real-time, any device, General MIDI, on (1 or, second level, 3). */
const resetHead = [0x7e, undefined, 0x09];

/**
 * Reads a track.
 *
 * @param index   of the track among those read, from 0
 * @param events  where they are put, with `index` as their track
 * @source        midi-file-1, "MTrk events"
 */
export function readTrack(
  bytes: Uint8Array,
  { track, index, events, troubles }: { track: TrackBytes; index: number; events: EventList; troubles: Troubles },
): TrackText {
  return new TrackReader(bytes, { track, index, events, troubles }).read();
}

class TrackReader {
  private at: number;
  private tick = 0;
  private status = 0;
  /** A meta or exclusive event has cancelled the running status. */
  private cancelled = false;
  private port = 0;
  private name = "";
  private readonly bytes: Uint8Array;
  private readonly track: TrackBytes;
  private readonly index: number;
  private readonly events: EventList;
  private readonly troubles: Troubles;

  constructor(
    bytes: Uint8Array,
    { track, index, events, troubles }: { track: TrackBytes; index: number; events: EventList; troubles: Troubles },
  ) {
    this.bytes = bytes;
    this.track = track;
    this.index = index;
    this.events = events;
    this.troubles = troubles;
    this.at = track.from;
  }

  read(): TrackText {
    const { to } = this.track;
    let ended = false;
    while (this.at < to && !ended) {
      const began = this.at;
      const delta = this.length();
      const found = delta === undefined ? "a delta time of more than 4 bytes, or cut off" : this.event(delta);
      if (typeof found === "string") {
        const detail = `track ${this.track.number} is broken after ${began - this.track.from} of its ${to - this.track.from} bytes: ${found}`;
        this.troubles.add("song-track-broken", { byte: began, detail });
        break;
      }
      ended = found;
      if (!ended && this.at >= to) this.troubles.add("song-track-open", { byte: to });
    }
    if (ended && this.at < to) this.troubles.add("song-after-end", { byte: this.at });
    this.put(event.trackEnd, this.at, 0);
    return { name: this.name, end: this.tick };
  }

  /** True at the end of the track; words where the bytes are no event. */
  private event(delta: number): boolean | string {
    const began = this.at;
    const first = this.bytes[began];
    if (began >= this.track.to || first === undefined) return "an event is missing after a delta time";
    this.tick += delta;
    if (first === 0xff) return this.meta();
    if (first === 0xf0 || first === 0xf7) return this.exclusive(first);
    if (first > 0xf0) return this.system(first);
    if (first >= 0x80) {
      this.status = first;
      this.cancelled = false;
      this.at++;
    } else if (this.status === 0) return `data byte ${hex(first)} without a status byte before it`;
    else if (this.cancelled) this.troubles.add("song-running-status", { byte: began });
    return this.channelEvent(began);
  }

  private channelEvent(began: number): boolean | string {
    const kind = this.status >> 4;
    const count = kind === 0xc || kind === 0xd ? 1 : 2;
    if (this.at + count > this.track.to) return "the track ends within an event";
    const a = this.bytes[this.at] ?? 0;
    const b = count === 2 ? (this.bytes[this.at + 1] ?? 0) : 0;
    if (a >= 0x80 || b >= 0x80)
      return `${hex(a >= 0x80 ? a : b)} where a data byte of the event ${hex(this.status)} belongs`;
    this.at += count;
    if (kind === event.noteOff || kind === event.noteOn || kind === event.control || kind === event.bend)
      this.put(kind === event.noteOn && b === 0 ? event.noteOff : kind, began, a * 128 + b);
    return false;
  }

  private meta(): boolean | string {
    const began = this.at;
    this.at++;
    const type = this.bytes[this.at++];
    const length = this.length();
    if (type === undefined || length === undefined || this.at + length > this.track.to)
      return "a meta event that runs past the end of the track";
    const from = this.at;
    this.at += length;
    this.cancelled = true;
    if (type === meta.end) return true;
    if (type === meta.name && this.name === "") this.name = nameFrom(this.bytes.subarray(from, from + length));
    if (type === meta.port && length >= 1) this.port = (this.bytes[from] ?? 0) & 0x7f;
    if (type === meta.tempo) this.tempo({ began, from, length });
    return false;
  }

  private tempo({ began, from, length }: { began: number; from: number; length: number }): void {
    const [a = 0, b = 0, c = 0] = this.bytes.subarray(from, from + 3);
    const microseconds = (a << 16) | (b << 8) | c;
    if (length === 3 && microseconds > 0) this.put(event.tempo, began, microseconds);
    else {
      const detail = length === 3 ? "of 0 µs" : `of ${length} bytes`;
      this.troubles.add("song-tempo", { byte: began, detail });
    }
  }

  private exclusive(first: number): boolean | string {
    const began = this.at;
    this.at++;
    const length = this.length();
    if (length === undefined || this.at + length > this.track.to)
      return "an exclusive event that runs past the end of the track";
    const content = this.bytes.subarray(this.at, this.at + Math.min(length, 4));
    this.at += length;
    this.cancelled = true;
    const resets = first === 0xf0 && resetHead.every((byte, i) => byte === undefined || byte === content[i]);
    if (resets && (content[3] === 1 || content[3] === 3)) this.put(event.reset, began, 0);
    return false;
  }

  private system(first: number): boolean | string {
    const count = first >= 0xf8 ? 0 : systemLengths.get(first);
    if (count === undefined || this.at + 1 + count > this.track.to) return `${hex(first)}, which begins no event`;
    this.troubles.add("song-system-event", { byte: this.at, detail: hex(first) });
    this.at += 1 + count;
    return false;
  }

  private put(kind: number, began: number, data: number): void {
    const channel = this.port * 16 + (this.status & 0xf);
    this.events.add(this.tick, began, kind, channel, this.index, data);
  }

  /** A variable-length number of at most 4 bytes, or undefined. */
  private length(): number | undefined {
    let value = 0;
    for (let i = 0; i < 4 && this.at < this.track.to; i++) {
      const byte = this.bytes[this.at++] ?? 0;
      value = value * 128 + (byte & 0x7f);
      if (byte < 0x80) return value;
    }
    return undefined;
  }
}

function hex(byte: number): string {
  return byte.toString(16).toUpperCase().padStart(2, "0");
}
