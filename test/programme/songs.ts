/** Songs and limits by chance, for laws that hold for all of them. */
import fc from "fast-check";
import type { Note, Song } from "../../src/description/song.ts";
import type { CostTable, Load, ProgrammeLimits, Shaping } from "../../src/programme/index.ts";

/** A tone with everything else at its plainest. */
export const tone = (
  { start, end, pitch }: { start: number; end: number; pitch: number },
  rest: Partial<Note> = {},
): Note => ({
  voice: 0,
  start,
  end,
  pitch,
  velocity: 1,
  level: 1,
  sound: "tone",
  bends: [],
  swells: [],
  ...rest,
});

/** A song of these notes, with as many voices as they use. */
export function songOf(notes: readonly Note[]): Song {
  const voices = Math.max(0, ...notes.map(({ voice }) => voice + 1));
  return {
    voices: Array.from({ length: voices }, (_, n) => ({ name: `voice ${n + 1}` })),
    notes: [...notes].sort((a, b) => a.start - b.start),
    duration: Math.max(0, ...notes.map(({ end }) => end)),
  };
}

export const plainShaping: Shaping = {
  range: { longest: 100e-6, softest: 30e-6 },
  least: 15e-6,
  priorities: [],
  muted: new Set(),
  shift: 50,
  seed: 1,
  equalLoudness: true,
};

export const roomyLimits: ProgrammeLimits = { onTime: 150e-6, gap: 100e-6, rate: 3000, duty: 0.3 };

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const turns = (min: number, max: number) =>
  fc
    .array(fc.record({ at: double(0, 3), to: double(min, max) }), { maxLength: 4 })
    .map((list) => [...list].sort((a, b) => a.at - b.at));

const anyNote = fc
  .record({
    voice: fc.integer({ min: 0, max: 3 }),
    start: double(0, 1.5),
    lasts: double(0.002, 1.2),
    pitch: double(12, 115),
    velocity: double(0, 1),
    level: double(0, 1),
    sound: fc.constantFrom("tone" as const, "tone" as const, "tone" as const, "noise" as const),
    bends: turns(20, 110),
    swells: turns(0, 1),
  })
  .map(({ lasts, ...note }): Note => ({ ...note, end: note.start + lasts }));

export const anySong = fc.array(anyNote, { maxLength: 12 }).map(songOf);

const logarithmic = (min: number, max: number) => double(Math.log(min), Math.log(max)).map(Math.exp);

const heatLimit = fc.record({
  terms: fc.array(fc.tuple(logarithmic(0.01, 5), logarithmic(1e-4, 60)), { minLength: 1, maxLength: 3 }),
  ambient: fc.constant(300),
  most: double(300.5, 420),
});

export const anyLimits: fc.Arbitrary<ProgrammeLimits> = fc.record(
  {
    onTime: logarithmic(5e-6, 400e-6),
    gap: logarithmic(1e-6, 3e-3),
    rate: logarithmic(5, 3000),
    duty: logarithmic(0.002, 0.5),
    power: logarithmic(5, 3000),
    bus: double(0, 330),
    junction: heatLimit,
    capacitor: heatLimit,
  },
  { requiredKeys: ["onTime", "gap", "rate", "duty"] },
);

const table = (scale: number, longest: number): fc.Arbitrary<CostTable> =>
  fc.tuple(fc.array(double(0, 1), { minLength: 5, maxLength: 5 }), double(0, 3)).map(([rises, exponent]) => {
    const values = new Float64Array(6);
    rises.forEach((rise, n) => {
      values[n + 1] = values[n]! + scale * rise;
    });
    return { step: longest / 5, values, exponents: new Float64Array(6).fill(exponent) };
  });

export const anyLoad: fc.Arbitrary<Load> = fc.record({
  costs: fc.record({ drawn: table(0.5, 400e-6), switchLoss: table(0.05, 400e-6), bankLoss: table(0.005, 400e-6) }),
  bus: fc.record({
    voltage: fc.constant(325),
    capacitance: logarithmic(50e-6, 5e-3),
    refill: fc.constantFrom(10e-3, 20e-3),
  }),
});

export const anyShaping: fc.Arbitrary<Shaping> = fc
  .record({
    longest: logarithmic(5e-6, 500e-6),
    softest: double(0, 1),
    least: double(0, 0.5),
    priorities: fc.array(fc.option(fc.integer({ min: -2, max: 5 }), { nil: undefined }), { maxLength: 4 }),
    muted: fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 1 }),
    shift: double(0, 150),
    seed: fc.integer(),
    equalLoudness: fc.boolean(),
  })
  .map(({ longest, softest, least, muted, ...rest }) => ({
    ...rest,
    range: { longest, softest: Math.max(1e-6, softest * longest) },
    least: Math.max(1e-6, least * longest),
    muted: new Set(muted),
  }));
