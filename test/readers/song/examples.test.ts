import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Song } from "../../../src/description/song.ts";
import { readNotation, readSong, writeMidi } from "../../../src/readers/song.ts";

const folder = new URL("../../../examples/", import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith(".tune"));

function tune(name: string): Song {
  const { song, findings } = readNotation(readFileSync(new URL(name, folder), "utf8"));
  expect(findings).toEqual([]);
  return song as Song;
}

describe("the tunes that come with the program", () => {
  // law: the MIDI file beside a tune is made from it by scripts/tunes.js
  it.each(names)("%s stands beside its MIDI file", (name) => {
    const bytes = new Uint8Array(readFileSync(new URL(name.replace(".tune", ".mid"), folder)));
    expect(Buffer.from(writeMidi(tune(name)).bytes).equals(Buffer.from(bytes))).toBe(true);
    expect(readSong(bytes, { fileName: name })).toMatchObject({ findings: [], song: { title: tune(name).title } });
  });

  // law: voices that are meant to end together do
  it("have voices of one length", () => {
    for (const name of ["joy.tune"]) {
      const { voices, notes } = tune(name);
      const ends = voices.map((_, voice) =>
        Math.max(...notes.filter((note) => note.voice === voice).map(({ end }) => end)),
      );
      for (const end of ends) expect(end).toBeCloseTo(ends[0] ?? 0, 9);
    }
  });

  // published: the theme's first phrase by scale degrees, 3 3 4 5 5 4 3 2 1 1 2 3 3 2 2 (from memory of the melody)
  it("begin the theme as it is known", () => {
    const melody = tune("joy.tune")
      .notes.filter(({ voice }) => voice === 0)
      .map(({ pitch }) => pitch - 62);
    expect(melody.slice(0, 15)).toEqual([4, 4, 5, 7, 7, 5, 4, 2, 0, 0, 2, 4, 4, 2, 2]);
  });
});
