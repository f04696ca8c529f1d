import { describe, expect, it } from "vitest";
import { readSong } from "../../../src/readers/song.ts";
import { ascii, chunk, endOfTrack, long, smf, word } from "./smf.ts";

const header = chunk("MThd", [0, 0, 0, 1, 0, 96]);
const note = [0, 0x90, 69, 100, 96, 0x80, 69, 0];
const whole = [...header, ...chunk("MTrk", [...note, ...endOfTrack])];

/** What is said of the bytes: rule, severity, byte; and how many notes were read. */
function said(bytes: readonly number[]): { findings: readonly (readonly [string, string, number])[]; notes: number } {
  const { song, findings } = readSong(Uint8Array.from(bytes), { fileName: "broken.mid" });
  return {
    findings: findings.map(({ rule, severity, place }) => [rule, severity, place?.byte ?? -1]),
    notes: song?.notes.length ?? 0,
  };
}

// law: each file is the whole one with one thing made wrong, at a byte that is known because it was put there
describe("a broken file", () => {
  it.each<[string, readonly number[], readonly (readonly [string, string, number])[], number]>([
    ["is whole", whole, [], 1],
    ["is empty", [], [["not-a-song", "stop", 0]], 0],
    ["is something else", [0, 1, 2, 3], [["not-a-song", "stop", 0]], 0],
    ["ends in its header", whole.slice(0, 13), [["song-header", "stop", 0]], 0],
    [
      "has a header of 5 bytes",
      [...whole.slice(0, 7), 5, ...whole.slice(8, 13), ...whole.slice(14)],
      [["song-header", "stop", 4]],
      0,
    ],
    ["has 0 ticks per quarter", [...whole.slice(0, 12), 0, 0, ...whole.slice(14)], [["song-header", "stop", 12]], 0],
    ["has 0 ticks per frame", [...whole.slice(0, 12), 0xe7, 0, ...whole.slice(14)], [["song-header", "stop", 12]], 0],
    ["has no notes", [...header, ...chunk("MTrk", endOfTrack)], [["song-without-notes", "stop", 0]], 0],
    ["stands behind an archive's header", [...ascii("SIT!"), ...whole], [["song-before-header", "look", 0]], 1],
    ["lacks a track", [...whole.slice(0, 11), 3, ...whole.slice(12)], [["song-track-count", "look", 10]], 1],
    ["is of format 7", [...whole.slice(0, 9), 7, ...whole.slice(10)], [["song-format", "look", 8]], 1],
    [
      "announces too short a track",
      [...whole.slice(0, 21), 3, ...whole.slice(22)],
      [["song-chunk-length", "look", 18]],
      1,
    ],
    [
      "announces a track of 4 GiB",
      [...whole.slice(0, 18), ...long(0xffffffff), ...whole.slice(22)],
      [["song-chunk-length", "look", 18]],
      1,
    ],
    ["has stray bytes behind its track", [...whole, 0, 1, 2], [["song-between-chunks", "look", 34]], 1],
    [
      "is cut off in its last event",
      whole.slice(0, 29),
      [
        ["song-chunk-length", "look", 18],
        ["song-track-broken", "fix", 26],
        ["song-note-open", "look", 23],
      ],
      1,
    ],
    ["lacks an end of track", [...header, ...chunk("MTrk", note)], [["song-track-open", "look", 30]], 1],
    [
      "goes on after its end",
      [...header, ...chunk("MTrk", [...note, ...endOfTrack, 0, 0x90, 1, 1])],
      [["song-after-end", "look", 34]],
      1,
    ],
    [
      "begins with a data byte",
      [...header, ...chunk("MTrk", [0, 69, 100, ...endOfTrack])],
      [
        ["song-track-broken", "fix", 22],
        ["song-without-notes", "stop", 0],
      ],
      0,
    ],
    [
      "has a status byte as data",
      [...header, ...chunk("MTrk", [...note, 0, 0x90, 0xff, 0x2f, ...endOfTrack])],
      [["song-track-broken", "fix", 30]],
      1,
    ],
    [
      "has a delta time of 5 bytes",
      [...header, ...chunk("MTrk", [...note, 0x81, 0x81, 0x81, 0x81, 1, ...endOfTrack])],
      [["song-track-broken", "fix", 30]],
      1,
    ],
    [
      "has a text of 200 MB",
      [...header, ...chunk("MTrk", [...note, 0, 0xff, 1, 0xe0, 0x80, 0x80, 0, ...endOfTrack])],
      [["song-track-broken", "fix", 30]],
      1,
    ],
    [
      "runs its status over a meta event",
      [...header, ...chunk("MTrk", [...note, 0, 0xff, 1, 0, 0, 69, 0, ...endOfTrack])],
      [["song-running-status", "look", 35]],
      1,
    ],
    [
      "holds a clock event",
      [...header, ...chunk("MTrk", [...note, 0, 0xf8, ...endOfTrack])],
      [["song-system-event", "look", 31]],
      1,
    ],
    [
      "has a tempo of 0",
      [...header, ...chunk("MTrk", [0, 0xff, 0x51, 3, 0, 0, 0, ...note, ...endOfTrack])],
      [["song-tempo", "look", 23]],
      1,
    ],
    [
      "never lets a note go",
      [...header, ...chunk("MTrk", [...note.slice(0, 4), ...endOfTrack])],
      [["song-note-open", "look", 23]],
      1,
    ],
    [
      "has a note without length",
      [...header, ...chunk("MTrk", [...note.slice(0, 4), 0, ...note.slice(5), ...endOfTrack])],
      [["song-note-without-length", "look", 23]],
      1,
    ],
  ])("that %s", (_, bytes, findings, notes) => {
    const found = said(bytes);
    expect([...found.findings].sort()).toEqual([...findings].sort());
    expect(found.notes).toBe(notes);
  });

  it("says what was found, expected and to be done", () => {
    const { findings } = readSong(Uint8Array.from(whole.slice(0, 29)), { fileName: "cut.mid" });
    expect(findings.find(({ rule }) => rule === "song-track-broken")).toMatchObject({
      what: "track 1 is broken after 4 of its 7 bytes: the track ends within an event (byte 26)",
      expected:
        "whole events up to the end of the track; the rest of the track was left out, so that no note is made up",
    });
  });

  it("keeps the track behind one whose length is wrong either way", () => {
    const track = [...note, ...endOfTrack];
    const tracks = (length: number) => [
      ...chunk("MThd", [0, 1, 0, 2, 0, 96]),
      ...chunk("MTrk", track, length),
      ...chunk("MTrk", track),
    ];
    for (const length of [0, 3, track.length + 5, 0xffffffff]) expect(said(tracks(length)).notes).toBe(2);
  });
});

describe("limits", () => {
  const timeOf = (act: () => void): number => {
    const began = performance.now();
    act();
    return performance.now() - began;
  };

  // guard: seconds that a slow machine still keeps; without the bounds these take minutes or all memory
  it("hold against files made to be slow", { timeout: 60_000 }, () => {
    const million = (one: readonly number[], count: number): number[] =>
      Array.from({ length: count }, () => one).flat();
    const held = Array.from({ length: 20_000 }, (_, i) => [0, 0x90 + (i % 9), i % 128, 1]).flat();
    const files: Readonly<Record<string, Uint8Array>> = {
      tempi: smf({ tracks: [[...million([1, 0xff, 0x51, 3, 1, 2, 3], 300_000), ...note]] }),
      bends: smf({ tracks: [[...held, ...million([0, 0xe0, 0, 1, 0, 0, 2], 100_000)]] }),
      pedals: smf({ tracks: [[...held, ...million([0, 0xb0, 66, 127, 0, 66, 0], 100_000)]] }),
      chunks: Uint8Array.from([...header, ...million(chunk("ABCD", []), 200_000)]),
      tracks: Uint8Array.from([...header, ...million(chunk("MTrk", []), 200_000)]),
      patterns: smf({ format: 2, tracks: Array.from({ length: 65_000 }, () => note), announced: 65_000 }),
      names: smf({
        format: 1,
        tracks: Array.from({ length: 65_000 }, () => [0, 0xff, 3, 1, 65, ...note]),
        announced: 65_000,
      }),
      notes: smf({ tracks: [million([0, 0x90, 60, 1], 410_000)] }),
      days: smf({ division: 1, tracks: [million([0xff, 0xff, 0xff, 0x7f, 0x90, 60, 1], 100)] }),
    };
    for (const [name, bytes] of Object.entries(files)) {
      let findings: readonly { rule: string }[] = [];
      expect([name, timeOf(() => (findings = readSong(bytes, { fileName: name }).findings)) < 6000]).toEqual([
        name,
        true,
      ]);
      if (name === "bends" || name === "pedals" || name === "notes")
        expect(findings.map(({ rule }) => rule)).toContain("song-too-big");
      if (name === "days") expect(findings.map(({ rule }) => rule)).toContain("song-too-long");
    }
  });

  it("refuse a file of more than 8 MiB unread", () => {
    const { findings } = readSong(new Uint8Array(8 * 1024 * 1024 + 1), { fileName: "big.mid" });
    expect(findings).toMatchObject([{ rule: "song-too-big", severity: "stop", what: "the file has 8.0 MiB (byte 0)" }]);
  });

  it("end a song after a day", () => {
    const { song } = readSong(smf({ division: 1, tracks: [[0, 0x90, 60, 1, 0xff, 0xff, 0xff, 0x7f, 0x80, 60, 0]] }), {
      fileName: "long",
    });
    expect(song?.duration).toBe(86_400);
    expect(song?.notes[0]?.end).toBe(86_400);
  });
});

it("word and long write what they say", () => {
  expect([word(0x1234), long(0x12345678)]).toEqual([
    [0x12, 0x34],
    [0x12, 0x34, 0x56, 0x78],
  ]);
});
