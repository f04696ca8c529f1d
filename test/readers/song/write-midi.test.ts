import tonejs from "@tonejs/midi";
import { BasicMIDI } from "spessasynth_core";
import { describe, expect, it } from "vitest";
import type { Note, Song } from "../../../src/description/song.ts";
import { readNotation, readSong, writeMidi } from "../../../src/readers/song.ts";
import { carriedFiles } from "./smf.ts";

/** Half a tick of 52 µs. */
const halfTick = 0.5 / 19_200 + 1e-9;

function inOrder(song: Song): readonly Note[] {
  const start = ({ start: time }: Note) => Math.round(time * 19_200);
  return [...song.notes].sort(
    (a, b) =>
      start(a) - start(b) ||
      a.sound.localeCompare(b.sound) ||
      a.pitch - b.pitch ||
      a.end - b.end ||
      a.velocity - b.velocity ||
      a.level - b.level,
  );
}

function songOf(text: string): Song {
  const { song } = readNotation(text);
  if (song === undefined) throw new Error("no song");
  return song;
}

describe("a song written as a MIDI file", () => {
  // law: what is written reads back as the same notes, within half a tick, the steps of velocity and of the bend
  it("comes back the same, for every file that packages carry", { timeout: 60_000 }, () => {
    let notes = 0;
    for (const { name, bytes } of carriedFiles()) {
      const { song } = readSong(bytes, { fileName: name });
      if (song === undefined) continue;
      const { bytes: clean, timeError, pitchError } = writeMidi(song);
      const { song: again, findings } = readSong(clean, { fileName: name });
      expect(findings).toEqual([]);
      expect(timeError).toBeLessThanOrEqual(halfTick);
      expect(again?.title).toBe(song.title);
      const [ours, theirs] = [inOrder(song), inOrder(again as Song)];
      expect([name, theirs.length]).toEqual([name, ours.length]);
      ours.forEach((note, i) => {
        const other = theirs[i] as Note;
        const far =
          Math.abs(note.start - other.start) > halfTick ||
          Math.abs(note.end - other.end) > Math.max(halfTick, 1 / 19_200) ||
          Math.abs(note.pitch - other.pitch) > pitchError + 1e-9 ||
          Math.abs(note.velocity - other.velocity) > 1e-9 ||
          Math.abs(note.level - other.level) > 1e-9 ||
          note.sound !== other.sound;
        if (far) throw new Error(`${name}: ${JSON.stringify(note)} came back as ${JSON.stringify(other)}`);
        notes++;
      });
    }
    expect(notes).toBeGreaterThan(150_000);
  });

  // independent: two other parsers hear the same keys at the same times
  it("is read by other parsers", () => {
    for (const { name, bytes } of carriedFiles().filter((_, i) => i % 10 === 3)) {
      const { song } = readSong(bytes, { fileName: name });
      if (song === undefined) continue;
      const clean = writeMidi(song).bytes;
      const starts = song.notes.map(({ start }) => start);
      const tones = new tonejs.Midi(clean).tracks.flatMap(({ notes }) => notes.map(({ time }) => time));
      const spessa = BasicMIDI.fromArrayBuffer(Uint8Array.from(clean).buffer)
        .getNoteTimes(0)
        .flat()
        .map(({ start }) => start);
      for (const others of [tones, spessa]) {
        others.sort((a, b) => a - b);
        expect(others.length).toBe(starts.length);
        expect(starts.every((start, i) => Math.abs(start - (others[i] ?? -1)) < 2 * halfTick)).toBe(true);
      }
    }
  });

  // law: notes of one voice that bend apart cannot share a channel
  it("gives notes that bend apart a channel each", () => {
    const song = songOf("tune\n2 s: A4 to A5 & A3 to A2 & E4\n1 s: C4&E4");
    const { bytes, extraTracks, pitchError } = writeMidi(song);
    expect(extraTracks).toBe(2);
    const again = readSong(bytes, { fileName: "a" }).song as Song;
    const [low, , high] = inOrder(again);
    expect(pitchError).toBeLessThan(0.001);
    expect(low?.bends.at(-1)?.to).toBeCloseTo(45, 1);
    expect(high?.bends.at(-1)?.to).toBeCloseTo(81, 1);
    expect(again.notes.find(({ pitch }) => pitch === 64)?.bends).toEqual([]);
  });

  it("keeps swells, noise and voices beyond sixteen channels", () => {
    const voices = Array.from(
      { length: 40 },
      (_, i) => `voice V${i}\nlevel ${i + 50} %\n1 s: ${440 + i} Hz noise-C2\nlevel 10 %\n1 s: +`,
    );
    const song = songOf(`tune Many\n${voices.join("\n")}`);
    const again = readSong(writeMidi(song).bytes, { fileName: "a" }).song as Song;
    expect(again.notes.filter(({ sound }) => sound === "noise").length).toBe(40);
    expect(again.voices.length).toBe(80);
    const swelled = again.notes.filter(
      ({ swells }) => swells.length === 1 && Math.abs((swells[0]?.to ?? 0) - 0.1) < 0.004,
    );
    expect(swelled.length).toBe(40);
    for (const [i, note] of inOrder(song).entries()) expect(inOrder(again)[i]?.level).toBeCloseTo(note.level, 2);
  });

  it("bridges a pause that no delta time can hold", () => {
    const song = songOf("tune\n1 s: A4\nat 80000 s\n1 s: A4");
    const { song: again, findings } = readSong(writeMidi(song).bytes, { fileName: "a" });
    expect(findings).toEqual([]);
    expect(again?.notes[1]?.start).toBeCloseTo(80_000, 4);
  });

  // law: a file that would need more channels than there are is refused in words, not written wrong
  it("refuses more channels than a file can name", () => {
    const one: Note = {
      voice: 0,
      start: 0,
      end: 1,
      pitch: 60,
      velocity: 1,
      level: 1,
      sound: "tone",
      bends: [],
      swells: [],
    };
    const notes = Array.from({ length: 1921 }, () => one);
    expect(() => writeMidi({ voices: [{ name: "a" }], notes, duration: 1 })).toThrow(/2048 channels/);
  });
});
