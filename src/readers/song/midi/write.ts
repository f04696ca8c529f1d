/** A song → a cleaned Standard MIDI File of format 1: only what sounds, one track for each channel. */
import { OutOfDomain } from "../../../catalogue/errors.ts";
import type { Note, Song, Voice } from "../../../description/song.ts";
import type { Second } from "../../../units/si.ts";
import { chunks, metaEvent, variableLength } from "./bytes.ts";
import { controller } from "./channel.ts";
import { keyOf, type Lane, lanesOf } from "./lanes.ts";
import { levelPair } from "./level-pair.ts";

export interface MidiFile {
  readonly bytes: Uint8Array;
  /** The greatest error of a note's start or end, from rounding to ticks [s]. */
  readonly timeError: Second;
  /** The greatest error of a pitch, from the 14 bits of the bend [semitones]. */
  readonly pitchError: number;
  /** Tracks beyond one for each voice, where notes that sound together bend or swell apart. */
  readonly extraTracks: number;
}

/** A multiple of the usual divisions; with the tempo below a tick is 52 µs. */
const ticksPerQuarter = 9600;
const tempo = 500_000;
const ticksPerSecond = ticksPerQuarter / (tempo / 1e6);
const longestDelta = 0x0fffffff;
const drumChannel = 9;
const mostPorts = 128;

interface Timed {
  readonly tick: number;
  /** At one tick: ends of notes, then settings, then beginnings. */
  readonly rank: 0 | 1 | 2;
  readonly key: number;
  readonly does:
    | { readonly kind: "off" }
    | { readonly kind: "on"; readonly velocity: number }
    | { readonly kind: "bend" | "level"; readonly to: number };
}

/**
 * Writes a song as a MIDI file. Noise goes to channel 10. What a channel cannot hold at once goes to more tracks, on more ports (FF 21)
 * where sixteen channels are too few.
 *
 * @throws OutOfDomain  the song needs more than 1920 channels for tones or 128 for noise
 * @source  midi-file-1
 */
export function writeMidi(song: Song): MidiFile {
  const lanes = lanesOf(song);
  const places = placesOf(lanes, song.voices);
  let [timeError, pitchError] = [0, 0];
  for (const { start, end } of song.notes)
    for (const time of [start, end]) timeError = Math.max(timeError, Math.abs(tickOf(time) / ticksPerSecond - time));
  const end = tickOf(song.duration);
  const conductor = [
    ...(song.title === undefined ? [] : [0, ...metaEvent(0x03, new TextEncoder().encode(song.title))]),
    ...[0, ...metaEvent(0x51, [tempo >> 16, (tempo >> 8) & 0xff, tempo & 0xff])],
    ...[...delta(end), ...metaEvent(0x2f, [])],
  ];
  const tracks = lanes.map((lane, index) => {
    const place = places[index] ?? { port: 0, channel: 0 };
    const track = trackOf(lane, { ...place, name: song.voices[lane.voice]?.name ?? "", end });
    pitchError = Math.max(pitchError, track.pitchError);
    return { type: "MTrk", content: track.content };
  });
  const header = [1, tracks.length + 1, ticksPerQuarter].flatMap((word) => [word >> 8, word & 0xff]);
  const bytes = chunks([{ type: "MThd", content: header }, { type: "MTrk", content: conductor }, ...tracks]);
  const voices = new Set(lanes.map(({ voice }) => voice)).size;
  return { bytes, timeError, pitchError, extraTracks: lanes.length - voices };
}

interface ChannelPlace {
  readonly port: number;
  readonly channel: number;
}

/** A channel for each lane; the voice's own where it is free. */
function placesOf(lanes: readonly Lane[], voices: readonly Voice[]): readonly ChannelPlace[] {
  const taken = new Set<number>();
  const fits = (channel: number, sound: Note["sound"]): boolean => (channel === drumChannel) === (sound === "noise");
  return lanes.map(({ voice, sound }) => {
    const own = voices[voice]?.channel;
    let place = own !== undefined && fits(own, sound) && !taken.has(own) ? own : 0;
    while (taken.has(place) || !fits(place % 16, sound)) place++;
    taken.add(place);
    const port = Math.floor(place / 16);
    if (port >= mostPorts) throw new OutOfDomain("writeMidi", `a file has at most ${16 * mostPorts} channels`);
    return { port, channel: place % 16 };
  });
}

function trackOf(
  lane: Lane,
  { port, channel, name, end }: ChannelPlace & { name: string; end: number },
): { content: readonly number[]; pitchError: number } {
  const greatest = lane.notes.reduce(
    (most, note) => offsetsOf(note).reduce((a, b) => Math.max(a, Math.abs(b)), most),
    0,
  );
  const range = lane.sound === "noise" ? 2 : Math.min(127, Math.max(2, Math.ceil((greatest * 8192) / 8191)));
  const status = (kind: number): number => (kind << 4) | channel;
  const set = (number: number, value: number): number[] => [status(0xb), number, value];

  const content = [...[0, ...metaEvent(0x03, new TextEncoder().encode(name))]];
  if (port > 0) content.push(0, ...metaEvent(0x21, [port]));
  const { registered, registeredFine, dataEntry } = controller;
  if (greatest > 0 && lane.sound === "tone")
    content.push(
      ...[set(registered, 0), set(registeredFine, 0), set(dataEntry, range)].flatMap((bytes) => [0, ...bytes]),
    );

  let [last, bend, volume, expression, pitchError] = [0, 8192, 100, 127, 0];
  const put = (tick: number, bytes: readonly number[]): void => {
    content.push(...delta(tick - last), ...bytes);
    last = tick;
  };
  for (const { tick, key, does } of timedOf(lane)) {
    if (does.kind === "on") put(tick, [status(9), key, does.velocity]);
    else if (does.kind === "off") put(tick, [status(8), key, 64]);
    else if (does.kind === "level") {
      const pair = levelPair(does.to);
      if (pair.volume !== volume) put(tick, set(controller.volume, pair.volume));
      if (pair.expression !== expression) put(tick, set(controller.expression, pair.expression));
      ({ volume, expression } = pair);
    } else {
      const position = Math.min(16383, Math.max(0, 8192 + Math.round((does.to / range) * 8192)));
      pitchError = Math.max(pitchError, Math.abs(((position - 8192) / 8192) * range - does.to));
      if (position !== bend) put(tick, [status(0xe), position & 0x7f, position >> 7]);
      bend = position;
    }
  }
  put(Math.max(end, last), metaEvent(0x2f, []));
  return { content, pitchError };
}

function timedOf(lane: Lane): readonly Timed[] {
  const timed = lane.notes.flatMap((note): readonly Timed[] => {
    const [on, key] = [tickOf(note.start), keyOf(note)];
    const velocity = Math.min(127, Math.max(1, Math.round(note.velocity * 127)));
    const bendAt = (time: Second, pitch: number): Timed[] =>
      lane.sound === "noise" ? [] : [{ tick: tickOf(time), rank: 1, key, does: { kind: "bend", to: pitch - key } }];
    return [
      ...bendAt(note.start, note.pitch),
      { tick: on, rank: 1, key, does: { kind: "level", to: note.level } },
      { tick: on, rank: 2, key, does: { kind: "on", velocity } },
      ...note.bends.flatMap(({ at, to }) => bendAt(at, to)),
      ...note.swells.map(({ at, to }): Timed => ({ tick: tickOf(at), rank: 1, key, does: { kind: "level", to } })),
      { tick: Math.max(tickOf(note.end), on + 1), rank: 0, key, does: { kind: "off" } },
    ];
  });
  return timed.sort((a, b) => a.tick - b.tick || a.rank - b.rank);
}

function offsetsOf({ pitch, bends, sound }: Note): readonly number[] {
  if (sound === "noise") return [];
  const key = keyOf({ pitch });
  return [pitch - key, ...bends.map(({ to }) => to - key)];
}

function tickOf(time: Second): number {
  return Math.round(time * ticksPerSecond);
}

/** A delta time; one that is too long for four bytes is bridged with empty texts. */
function delta(ticks: number): number[] {
  const bytes: number[] = [];
  let rest = ticks;
  for (; rest > longestDelta; rest -= longestDelta) bytes.push(...variableLength(longestDelta), ...metaEvent(0x01, []));
  return [...bytes, ...variableLength(rest)];
}
