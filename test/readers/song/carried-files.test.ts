import tonejs from "@tonejs/midi";
import { type MidiEvent, parseMidi } from "midi-file";
import { BasicMIDI } from "spessasynth_core";
import { describe, expect, it } from "vitest";
import type { Note, Song } from "../../../src/description/song.ts";
import { readSong } from "../../../src/readers/song.ts";
import { carriedFiles } from "./smf.ts";

const files = carriedFiles();

/** Made to be wrong by their package; each with what is said of it, and whether it is read all the same. */
const wrong: Readonly<Record<string, { rule: string; notes: number }>> = {
  "MIDIBadHeaderChunk.mid": { rule: "not-a-song", notes: 0 },
  "MIDIBadHeaderFormat.mid": { rule: "song-format", notes: 4 },
  "MIDIBadHeaderLength.mid": { rule: "song-header-length", notes: 4 },
  "MIDIBadHeaderSMTPE.mid": { rule: "song-header", notes: 0 },
  "MIDIBadHeaderTracksNum.mid": { rule: "song-track-count", notes: 4 },
  "MIDIBadTrackHdr.mid": { rule: "song-without-notes", notes: 0 },
  "MIDIBadTrackLength.mid": { rule: "song-chunk-length", notes: 4 },
};
const nameOf = (path: string): string => path.replace(/^.*[\\/]/, "");
const sound = files.filter(({ name }) => !(nameOf(name) in wrong));

interface Heard {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  readonly start: number;
  readonly end: number;
}

function ours(song: Song): Heard[] {
  return song.notes.map((note: Note) => ({
    channel: song.voices[note.voice]?.channel ?? -1,
    key: note.pitch,
    velocity: Math.round(note.velocity * 127),
    start: note.start,
    end: note.end,
  }));
}

function theirs(bytes: Uint8Array): Heard[] {
  const { buffer } = Uint8Array.from(bytes);
  return BasicMIDI.fromArrayBuffer(buffer)
    .getNoteTimes(0)
    .flatMap((notes, channel) =>
      notes.map(({ midiNote, velocity, start, length }) => ({
        channel,
        key: midiNote,
        velocity,
        start,
        end: start + length,
      })),
    );
}

/** Channels by what happens in them, from the events of the third parser. */
function channelsWith(bytes: Uint8Array, holds: (event: MidiEvent) => boolean): ReadonlySet<number> {
  const found = parseMidi(bytes).tracks.flat().filter(holds);
  return new Set(found.flatMap((event) => ("channel" in event ? [event.channel] : [])));
}

const isBend = (event: MidiEvent): boolean =>
  event.type === "pitchBend" || (event.type === "controller" && [100, 101].includes(event.controllerType));
const isHeld = (event: MidiEvent): boolean =>
  event.type === "controller" && [64, 66, 120, 121, 123, 124, 125, 126, 127].includes(event.controllerType);

/** Channels that more than one track plays: there a note-off may belong to either. */
function sharedChannels(bytes: Uint8Array): ReadonlySet<number> {
  const players = new Map<number, Set<number>>();
  parseMidi(bytes).tracks.forEach((track, index) => {
    for (const event of track)
      if (event.type === "noteOn") players.set(event.channel, (players.get(event.channel) ?? new Set()).add(index));
  });
  return new Set([...players].filter(([, tracks]) => tracks.size > 1).map(([channel]) => channel));
}

function grouped(heard: readonly Heard[], keyOf: (note: Heard) => string): Map<string, Heard[]> {
  const groups = new Map<string, Heard[]>();
  for (const note of heard) groups.set(keyOf(note), [...(groups.get(keyOf(note)) ?? []), note]);
  for (const group of groups.values()) group.sort((a, b) => a.start - b.start || a.end - b.end);
  return groups;
}

const compared = { starts: 0, ends: 0, exactKeys: 0 };

describe("the MIDI files that packages carry", () => {
  it("are all here", () => {
    expect(files.length).toBe(112);
    expect(sound.length).toBe(105);
  });

  // independent: spessasynth_core 4.3.22, its own parser and its own pairing of note-ons and note-offs; 1 µs is the sum of its rounding
  // over a song, added tick by tick
  it.each(sound.map(({ name, bytes }) => ({ name: nameOf(name), bytes })))(
    "$name: every note as a second parser hears it",
    ({ bytes }) => {
      const { song, findings } = readSong(bytes, { fileName: "a.mid" });
      expect(findings.filter(({ severity }) => severity === "stop")).toEqual([]);
      if (song === undefined) throw new Error("no song");
      const bent = channelsWith(bytes, isBend);
      const held = channelsWith(bytes, isHeld);
      const shared = sharedChannels(bytes);
      const place = ({ channel, key, velocity }: Heard) => `${channel} ${bent.has(channel) ? "bent" : key} ${velocity}`;
      const [mine, others] = [grouped(ours(song), place), grouped(theirs(bytes), place)];
      expect([...mine.keys()].sort()).toEqual([...others.keys()].sort());
      const wrongStarts: string[] = [];
      const wrongEnds: string[] = [];
      for (const [group, notes] of mine) {
        const same = others.get(group) ?? [];
        if (same.length !== notes.length) wrongStarts.push(`${group}: ${notes.length} for ${same.length}`);
        notes.forEach((note, i) => {
          const other = same[i];
          compared.starts++;
          if (!bent.has(note.channel)) compared.exactKeys++;
          if (other === undefined || Math.abs(note.start - other.start) > 1e-6)
            wrongStarts.push(`${group} at ${note.start}`);
          // Bent notes of one group may change places where they begin together; pedals and modes lengthen or shorten a note.
          else if (!bent.has(note.channel) && !held.has(note.channel) && !shared.has(note.channel)) {
            compared.ends++;
            const tickLong = other.end - other.start < 1e-9;
            if (!tickLong && Math.abs(note.end - other.end) > 1e-6)
              wrongEnds.push(`${group} at ${note.start} to ${note.end}, not ${other.end}`);
          }
        });
      }
      expect(wrongStarts).toEqual([]);
      expect(wrongEnds).toEqual([]);
    },
  );

  // independent: @tonejs/midi 2.0.28 on midi-file 1.2.4; it leaves out notes that meet no note-off, and plays format 2 at once
  it("have the notes of a third parser too", () => {
    let counted = 0;
    for (const { name, bytes } of sound) {
      if (nameOf(name) === "MIDIOkFormat2.mid") continue;
      const { song } = readSong(bytes, { fileName: name });
      const tracks = new tonejs.Midi(bytes).tracks;
      const starts = tracks.flatMap(({ notes }) => notes.map(({ time }) => time)).sort((a, b) => a - b);
      const mine = song?.notes.map(({ start }) => start) ?? [];
      if (starts.length !== mine.length) {
        expect(["ParadigmShifter.mid", "Whipped.mid"]).toContain(nameOf(name));
        continue;
      }
      counted += starts.length;
      expect(starts.every((start, i) => Math.abs(start - (mine[i] ?? -1)) < 1e-6)).toBe(true);
    }
    expect(counted).toBeGreaterThan(100_000);
  });

  // guard: that the comparison above is not of empty lists
  it("were compared by the hundred thousand", () => {
    expect(compared).toEqual({ starts: 156_408, exactKeys: 147_230, ends: 139_011 });
  });

  // law: what is broken is said with its byte, or not read
  it.each(Object.entries(wrong))("%s is mended or refused, and said", (name, { rule, notes }) => {
    const file = files.find((one) => nameOf(one.name) === name);
    const { song, findings } = readSong(file?.bytes ?? new Uint8Array(), { fileName: name });
    expect(findings.map((finding) => finding.rule)).toContain(rule);
    expect(findings.every(({ place }) => place?.byte !== undefined)).toBe(true);
    expect(song?.notes.length ?? 0).toBe(notes);
  });
});
