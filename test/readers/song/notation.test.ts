import { describe, expect, it } from "vitest";
import type { Note, Song } from "../../../src/description/song.ts";
import { readNotation, readSong, writeNotation } from "../../../src/readers/song.ts";
import reference from "../../reference/midi.json" with { type: "json" };
import { carriedFiles } from "./smf.ts";

function songOf(text: string): Song {
  const { song, findings } = readNotation(text);
  expect(findings).toEqual([]);
  if (song === undefined) throw new Error("no song");
  return song;
}

const notesOf = (lines: string): readonly Note[] => songOf(`tune Try\ntempo 60\n${lines}`).notes;
const timesOf = (lines: string): readonly (readonly number[])[] =>
  notesOf(lines).map(({ start, end, pitch }) => [start, end, pitch]);

// law: what docs/notation.md says each line does
describe("the notation", () => {
  it("lengths in beats, fractions of them, and seconds", () => {
    expect(timesOf("1: A4\n1/2: A4\n250 ms: A4\n1.5 s: A4")).toEqual([
      [0, 1, 69],
      [1, 1.5, 69],
      [1.5, 1.75, 69],
      [1.75, 3.25, 69],
    ]);
  });

  it("rests and holds", () => {
    expect(timesOf("1: A4 + . B4\n1/2: + +")).toEqual([
      [0, 2, 69],
      [3, 5, 71],
    ]);
  });

  it("chords, held whole", () => {
    expect(timesOf("1: A4&C5 & E5 +")).toEqual([
      [0, 2, 69],
      [0, 2, 72],
      [0, 2, 76],
    ]);
  });

  it("a pitch behind a plus leads the sound on", () => {
    const [note] = notesOf("1: A4 +B4 +A4");
    expect(note).toMatchObject({
      start: 0,
      end: 3,
      pitch: 69,
      bends: [
        { at: 1, to: 71 },
        { at: 2, to: 69 },
      ],
    });
  });

  it("repeats, also in each other", () => {
    expect(timesOf("repeat 2\n1: A4\nrepeat 2\n1: B4\nend\nend").map(([, , pitch]) => pitch)).toEqual([
      69, 71, 71, 69, 71, 71,
    ]);
  });

  it("voices with clocks and settings of their own, taken up again by name", () => {
    const song = songOf(
      "tune T\ntempo 60\nstrength 50 %\nvoice High\n1: A4\nvoice Low\ntempo 120\n1: A2\nvoice High\nstrength 90 %\n1: B4",
    );
    expect(song.voices).toEqual([{ name: "High" }, { name: "Low" }]);
    expect(song.notes.map(({ voice, start, end, velocity }) => [voice, start, end, velocity])).toEqual([
      [0, 0, 1, 0.5],
      [1, 0, 0.5, 0.5],
      [0, 1, 2, 0.9],
    ]);
    expect(song.duration).toBe(2);
  });

  it("level swells what is held, strength does not", () => {
    const [note] = notesOf("level 80 %\n1: A4\nlevel 40 %\nstrength 10 %\n1: +");
    expect(note).toMatchObject({ velocity: 0.8, level: 0.8, swells: [{ at: 1, to: 0.4 }] });
  });

  it("a gap ends sounds early, but takes no more than half", () => {
    expect(timesOf("gap 100 ms\n1 s: A4\n20 ms: A4").map(([start = 0, end = 0]) => end - start)).toEqual([
      expect.closeTo(0.9, 12),
      expect.closeTo(0.01, 12),
    ]);
  });

  it("noise, with a colour or without", () => {
    expect(notesOf("1: noise noise-D2").map(({ sound, pitch }) => [sound, pitch])).toEqual([
      ["noise", 60],
      ["noise", 38],
    ]);
  });

  it("sharps and flats in both spellings, and comments", () => {
    expect(timesOf("1: C#4 Db4 C♯4 D♭4 B-1 # C5\n# all of it").map(([, , pitch]) => pitch)).toEqual([
      61, 61, 61, 61, 11,
    ]);
  });

  // published: ISO 16, A4 = 440 Hz, equal temperament (test/reference/midi.json)
  it("names and frequencies agree", () => {
    const table = reference.entries.find(({ quantity }) => quantity === "midi.noteFrequency")?.value as number[];
    const names = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"];
    for (const [key, frequency] of table.entries()) {
      const [named, measured] = notesOf(`1: ${names[key % 12]}${Math.floor(key / 12) - 1} ${frequency} Hz`);
      expect(named?.pitch).toBe(key);
      expect(measured?.pitch).toBeCloseTo(key, 9);
    }
  });

  // law: equal intervals in equal times, in steps of at most a cent, from the first to the last pitch
  it("glides", () => {
    const [note] = notesOf("5 s: 100 Hz to 400 Hz");
    const first = 69 + 12 * Math.log2(100 / 440);
    const path = [{ at: 0, to: note?.pitch ?? 0 }, ...(note?.bends ?? [])];
    expect(path.length).toBe(2400);
    path.forEach(({ at, to }, i) => {
      expect(at).toBeCloseTo((5 * i) / 2400, 9);
      expect(to).toBeCloseTo(first + (24 * (i + 0.5)) / 2400, 9);
    });
  });

  it("is read from bytes by what it is", () => {
    const bytes = new TextEncoder().encode("\ufefftune\r\n1: A4\r\n");
    expect(readSong(bytes, { fileName: "x/alarm.txt" }).song).toMatchObject({ title: "alarm", notes: [{ pitch: 69 }] });
  });
});

// law: line, column and words for a text whose mistake is known
describe("mistakes", () => {
  const said = (text: string) =>
    readNotation(text).findings.map(({ rule, place }) => [rule, place?.line, place?.column, place?.length]);

  it.each<[string, readonly (readonly [string, number, number, number])[]]>([
    ["", [["tune-empty", 1, 1, 1]]],
    ["# nothing\n", [["tune-empty", 1, 1, 1]]],
    ["hello world", [["tune-first-line", 1, 1, 5]]],
    ["tune T", [["song-without-notes", 1, 1, 1]]],
    ["tune T\n1: .", [["song-without-notes", 1, 1, 1]]],
    ["tune T\ntemp 60\n1: A4", [["tune-word", 2, 1, 4]]],
    ["tune T\nA4 B4", [["tune-word", 2, 1, 2]]],
    ["tune T\n  1/2 A4", [["tune-length", 2, 7, 2]]],
    ["tune T\n1/0: A4", [["tune-length", 2, 1, 3]]],
    ["tune T\n0: A4", [["tune-length", 2, 1, 1]]],
    ["tune T\n1:", [["tune-sound", 2, 1, 2]]],
    ["tune T\n1: A4 H4", [["tune-sound", 2, 7, 2]]],
    ["tune T\n1: A4 a4", [["tune-sound", 2, 7, 2]]],
    ["tune T\n1: 440", [["tune-sound", 2, 4, 3]]],
    ["tune T\n1: A4 to", [["tune-sound", 2, 9, 1]]],
    ["tune T\n1: 30 kHz", [["tune-pitch", 2, 4, 6]]],
    ["tune T\n1: + A4", [["tune-hold", 2, 4, 1]]],
    ["tune T\n1: A4 . +", [["tune-hold", 2, 9, 1]]],
    ["tune T\n1: A4&C5 +D5", [["tune-hold", 2, 10, 3]]],
    ["tune T\n1: A4 +noise", [["tune-hold", 2, 7, 6]]],
    ["tune T\nstrength 120 %\n1: A4", [["tune-number", 2, 10, 5]]],
    ["tune T\nstrength 80\n1: A4", [["tune-number", 2, 10, 2]]],
    ["tune T\ngap 30 s 5\n1: A4", [["tune-word", 2, 10, 1]]],
    ["tune T\ngap 3 min\n1: A4", [["tune-number", 2, 5, 5]]],
    ["tune T\ntempo\n1: A4", [["tune-number", 2, 6, 1]]],
    ["tune T\nvoice\n1: A4", [["tune-word", 2, 6, 1]]],
    ["tune T\nrepeat 2\n1: A4", [["tune-repeat", 2, 1, 6]]],
    ["tune T\n1: A4\nend", [["tune-repeat", 3, 1, 3]]],
    [
      "tune T\n1: X\n1: Y\ntempo x",
      [
        ["tune-sound", 2, 4, 1],
        ["tune-sound", 3, 4, 1],
        ["tune-number", 4, 7, 1],
      ],
    ],
  ])("%j", (text, findings) => expect(said(text)).toEqual(findings));

  it("say what to do", () => {
    const remedies = (text: string) =>
      readNotation(text).findings.flatMap((finding) => finding.remedies.map(({ says }) => says));
    expect(remedies("tune T\ntemp 60\n1: a4 A 440")).toEqual([
      "write `tempo`",
      "write `A4`: letters of notes are capitals",
    ]);
    expect(remedies("tune T\n1: A")).toEqual(["write the octave too: `A4` lies around middle C"]);
    expect(remedies("tune T\nA4 B4")).toEqual(["put a length before it: `1: A4`"]);
  });

  it("end repeats that would never end", () => {
    const nested = `tune T\n${"repeat 1000\n".repeat(7)}1: A4\n${"end\n".repeat(7)}`;
    const began = performance.now();
    expect(said(nested).map(([rule]) => rule)).toEqual(["tune-too-long"]);
    expect(performance.now() - began).toBeLessThan(3000);
    expect(said(`tune T\n${"repeat 2\n".repeat(9)}1: A4\n${"end\n".repeat(9)}`).map(([rule]) => rule)).toEqual([
      "tune-repeat",
    ]);
  });

  it("are told up to twenty", () => {
    expect(said(`tune T\n${"1: X\n".repeat(100)}`).length).toBe(20);
  });
});

// law: what is written reads back as the same notes
describe("a song written as text", () => {
  const close = (a: number, b: number, tolerance: number): boolean => Math.abs(a - b) <= tolerance;

  it.each(carriedFiles().filter(({ bytes }, i) => i % 6 === 0 && bytes.length > 200 && bytes.length < 30_000))(
    "$name",
    ({ bytes }) => {
      const { song } = readSong(bytes, { fileName: "a" });
      if (song === undefined) throw new Error("no song");
      const again = songOf(writeNotation(song));
      expect(again.voices.map(({ name }) => name)).toEqual(song.voices.map(({ name }) => name));
      expect(again.duration).toBeCloseTo(song.duration, 8);
      const order = ({ notes }: Song) =>
        [...notes].sort(
          (a, b) => a.voice - b.voice || Math.round((a.start - b.start) * 1e7) || a.pitch - b.pitch || a.end - b.end,
        );
      const [ours, theirs] = [order(song), order(again)];
      expect(theirs.length).toBe(ours.length);
      ours.forEach((note, i) => {
        const other = theirs[i] as Note;
        const turnsAgree = (["bends", "swells"] as const).every(
          (kind) =>
            note[kind].length === other[kind].length &&
            note[kind].every(
              ({ at, to }, k) => close(at, other[kind][k]?.at ?? -1, 1e-8) && close(to, other[kind][k]?.to ?? -1, 1e-5),
            ),
        );
        const agrees =
          turnsAgree &&
          close(note.start, other.start, 1e-8) &&
          close(note.end, other.end, 1e-8) &&
          close(note.pitch, other.pitch, 1e-5) &&
          close(note.velocity, other.velocity, 1e-10) &&
          close(note.level, other.level, 1e-10);
        if (!agrees) throw new Error(`${JSON.stringify(note)} came back as ${JSON.stringify(other)}`);
      });
    },
  );
});
