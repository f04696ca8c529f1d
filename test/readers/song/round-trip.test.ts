import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Note, Song, Turn } from "../../../src/description/song.ts";
import { readNotation, readSong, writeMidi, writeNotation } from "../../../src/readers/song.ts";

const share = fc.integer({ min: 1, max: 127 }).map((step) => step / 127);

/** Turns within a note, as shares of its length. */
const turns = (value: fc.Arbitrary<number>) =>
  fc.array(fc.record({ at: fc.double({ min: 0.01, max: 0.99, noNaN: true }), to: value }), { maxLength: 4 });

const note = (voices: number) =>
  fc
    .record({
      voice: fc.integer({ min: 0, max: voices - 1 }),
      start: fc.oneof(
        fc.integer({ min: 0, max: 40 }).map((beat) => beat / 8),
        fc.double({ min: 0, max: 5, noNaN: true }),
      ),
      length: fc.double({ min: 0.002, max: 2, noNaN: true }),
      pitch: fc.oneof(fc.integer({ min: 20, max: 110 }), fc.double({ min: 20, max: 110, noNaN: true })),
      velocity: share,
      level: share,
      noise: fc.boolean(),
      bends: turns(fc.double({ min: 20, max: 110, noNaN: true })),
      swells: turns(share),
    })
    .map(({ voice, start, length, pitch, velocity, level, noise, bends, swells }): Note => {
      const within = (list: readonly Turn[]): readonly Turn[] => {
        const times = [...new Map(list.map(({ at, to }) => [Math.round(at * 50) / 50, to]))].sort(([a], [b]) => a - b);
        return times.filter(([at]) => at > 0 && at < 1).map(([at, to]) => ({ at: start + at * length, to }));
      };
      const still = { voice, start, end: start + length, velocity, level, swells: within(swells) };
      return noise
        ? { ...still, pitch: Math.round(pitch), sound: "noise", bends: [] }
        : { ...still, pitch, sound: "tone", bends: within(bends) };
    });

const songs = fc.integer({ min: 1, max: 4 }).chain((voices) =>
  fc.array(note(voices), { minLength: 1, maxLength: 25 }).map((notes): Song => {
    const sorted = [...notes].sort((a, b) => a.start - b.start);
    const duration = Math.max(...notes.map(({ end }) => end));
    return {
      title: "Chance",
      voices: Array.from({ length: voices }, (_, i) => ({ name: `V${i}` })),
      notes: sorted,
      duration,
    };
  }),
);

/** The value that holds at a time. */
function at({ first, turned, time }: { first: number; turned: readonly Turn[]; time: number }): number {
  return turned.filter((turn) => turn.at <= time).at(-1)?.to ?? first;
}

/** For each of ours a different one of theirs that is the same within the tolerances; says which has none. */
function lacking(
  ours: readonly Note[],
  theirs: readonly Note[],
  within: { time: number; pitch: number; level: number },
): string[] {
  const left = new Set(theirs);
  return ours.flatMap((mine) => {
    const same = [...left].find(
      (other) =>
        other.sound === mine.sound &&
        Math.abs(other.start - mine.start) <= within.time &&
        Math.abs(other.end - mine.end) <= within.time &&
        Math.abs(other.velocity - mine.velocity) < 1e-9 &&
        // Looked at between the turns, since the turns themselves are rounded.
        Array.from({ length: 50 }, (_, i) => mine.start + ((i + 0.5) / 50) * (mine.end - mine.start)).every((time) => {
          const near = [...mine.bends, ...mine.swells].some((turn) => Math.abs(turn.at - time) <= 2 * within.time);
          const pitch = (one: Note) => at({ first: one.pitch, turned: one.bends, time });
          const level = (one: Note) => at({ first: one.level, turned: one.swells, time });
          return (
            near ||
            (Math.abs(pitch(mine) - pitch(other)) <= within.pitch &&
              Math.abs(level(mine) - level(other)) <= within.level)
          );
        }),
    );
    if (same === undefined) return [JSON.stringify(mine)];
    left.delete(same);
    return [];
  });
}

// law: what is written reads back as the same notes, however they bend, swell and overlap
describe("songs by chance", () => {
  it("come back from text", () => {
    fc.assert(
      fc.property(songs, (song) => {
        const { song: again, findings } = readNotation(writeNotation(song));
        expect(findings).toEqual([]);
        expect(lacking(song.notes, again?.notes ?? [], { time: 1e-7, pitch: 1e-5, level: 1e-9 })).toEqual([]);
        expect(again?.notes.length).toBe(song.notes.length);
        expect(again?.duration).toBeCloseTo(song.duration, 7);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it("come back from a MIDI file", () => {
    fc.assert(
      fc.property(songs, (song) => {
        const { bytes, timeError, pitchError } = writeMidi(song);
        const { song: again, findings } = readSong(bytes, { fileName: "chance.mid" });
        expect(findings).toEqual([]);
        expect(timeError).toBeLessThanOrEqual(0.5 / 19_200 + 1e-12);
        // Half a step of a bend of 91 semitones.
        expect(pitchError).toBeLessThanOrEqual(0.5 * (91 / 8192));
        expect(
          lacking(song.notes, again?.notes ?? [], { time: timeError + 1e-9, pitch: pitchError + 1e-9, level: 1e-9 }),
        ).toEqual([]);
        expect(again?.notes.length).toBe(song.notes.length);
      }),
      { seed: 6, numRuns: 300 },
    );
  });
});
