import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitSong, planSong } from "../../src/programme/index.ts";
import { fitProgramme } from "../../src/workbench/programme-fit.ts";
import { brokenLimits } from "./checker.ts";
import { anyLimits, anyLoad, anyShaping, anySong, plainShaping, roomyLimits, songOf, tone } from "./songs.ts";

const limits = { onTime: 150e-6, gap: 250e-6, rate: 400, duty: 0.04 };

describe("fitSong", () => {
  // law: what fits already is not touched
  it("leaves a song that fits as it is", () => {
    const song = songOf([tone({ start: 0, end: 1, pitch: 48 }), tone({ start: 1, end: 2, pitch: 55 })]);
    expect(fitSong(song, roomyLimits, plainShaping)).toEqual({
      song,
      octaves: 0,
      folded: 0,
      leftOut: 0,
      cutShort: 0,
    });
  });

  // law: an octave is twelve semitones for every tone, so that intervals stay
  it("moves a high tune down as a whole", () => {
    const tune = [76, 77, 79, 76, 72].map((pitch, n) => tone({ start: n, end: n + 0.9, pitch }));
    const { song, octaves, folded } = fitSong(songOf(tune), limits, plainShaping);
    expect(octaves).toBeLessThan(0);
    expect(folded).toBe(0);
    song.notes.forEach(({ pitch }, n) => {
      expect(pitch).toBe(tune[n]!.pitch + 12 * octaves);
      expect(440 * 2 ** ((pitch - 69) / 12)).toBeLessThan(limits.rate);
    });
  });

  // law: of equal priorities the highest and the lowest of a chord carry tune and bass
  it("thins a chord from its inside", () => {
    const chord = [36, 43, 48, 52, 60].map((pitch, voice) => tone({ start: 0, end: 1, pitch }, { voice }));
    const { song, leftOut } = fitSong(songOf(chord), { ...limits, rate: 390 }, plainShaping);
    const kept = song.notes.map(({ pitch }) => pitch % 12);
    expect(leftOut).toBeGreaterThan(0);
    expect(kept).toContain(36 % 12);
    expect(kept).toContain(60 % 12);
    expect(song.notes.at(0)!.voice).toBe(0);
    expect(song.notes.at(-1)!.voice).toBe(4);
  });

  // law: a voice that was put first outlasts the others
  it("keeps the voice of the highest priority", () => {
    const chord = [48, 52, 55].map((pitch, voice) => tone({ start: 0, end: 1, pitch }, { voice }));
    const { song } = fitSong(songOf(chord), { ...limits, rate: 200 }, { ...plainShaping, priorities: [1, 5, 1] });
    expect(song.notes.map(({ voice }) => voice)).toContain(1);
  });
});

describe("fitProgramme over songs, limits and costs by chance", () => {
  // law: the limits' definitions again; and a fit may never take the last sound away
  it("keeps every limit and is never silent where the song was not", () => {
    fc.assert(
      fc.property(
        anySong,
        anyLimits,
        anyShaping,
        fc.option(anyLoad, { nil: undefined }),
        (song, any, shaping, load) => {
          const parts = { limits: any, ...(load ? { load } : {}) };
          const before = planSong(song, { ...parts, shaping });
          const fitted = fitProgramme({ song, shaping, ...parts });
          const after = planSong(fitted.song, { ...parts, shaping: fitted.shaping });
          expect(brokenLimits(after.schedule, any, load)).toEqual([]);
          expect(fitted.steps.length).toBeGreaterThan(0);
          if (before.course.pulse.length > 0) expect(after.course.pulse.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 100, endOnFailure: true },
    );
  }, 60_000);
});
