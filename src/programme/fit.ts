/** A song changed so that more of it can be played: octaves and fewer notes at a time. */
import type { Note, Song } from "../description/song.ts";
import type { Hertz, Second } from "../units/si.ts";
import { type ProgrammeLimits, rateWindows } from "./limits.ts";
import { frequencyOf } from "./pitch.ts";
import { noiseRate, type Shaping } from "./trains.ts";

export interface FittedSong {
  readonly song: Song;
  /** By which every tone was moved. */
  readonly octaves: number;
  /** Notes moved by further octaves for themselves. */
  readonly folded: number;
  /** Notes left out, and notes ended early, so that those that remain keep the rate together. */
  readonly leftOut: number;
  readonly cutShort: number;
}

/** Whole transpositions that are tried, nearest first. */
const transpositions = [0, -1, 1, -2, -3, -4] as const;
/** What an octave away costs, in parts of the song's notes. */
const octaveCost = 0.12;
/** A train slower than this is heard as single cracks, not as a pitch [Hz]. */
const lowestTone: Hertz = 30;
/** What a tone moved for itself costs, in parts of itself: it leaves its tune. */
const foldCost = 1;
/** Room for the windows of the duty, in which pulses are never quite even. */
const dutyRoom = 0.9;
/** Room for the pulses' own length below the highest tone. */
const headroom = 0.97;
/** A shorter note is not heard as one [s]. */
const shortest: Second = 0.05;

/**
 * The transposition by octaves after which most of the song's time can sound, tones still too high moved down by octaves of their own, and chords
 * thinned until what sounds together keeps rate and duty.
 *
 * Where too much would sound, the voice of lowest priority goes first, of equal ones noise before tones, then inner notes before the lowest and
 * the highest. A note that has begun is ended early; one that would begin then is left out.
 *
 * @returns the same song where nothing had to change; at any time with a note in the song at least one note sounds
 */
export function fitSong(song: Song, limits: ProgrammeLimits, shaping: Shaping): FittedSong {
  const { softest } = shaping.range;
  // At the softest, so many pulses a second use up the duty.
  const rate = Math.min(limits.rate, softest > 0 ? (dutyRoom * limits.duty) / softest : limits.rate);
  const highest = headroom * Math.min(rate, 1 / (limits.gap + softest));
  const best = transpositions
    .map((octaves) => {
      const moved = movedBy(song, octaves, highest);
      const thinned = thin(moved.song, rate, shaping);
      return {
        ...moved,
        ...thinned,
        octaves,
        worth:
          heardShare(thinned.song, song, highest) -
          octaveCost * Math.abs(octaves) -
          (foldCost * moved.folded) / Math.max(1, song.notes.length),
      };
    })
    .reduce((a, b) => (b.worth > a.worth + 1e-9 ? b : a));
  return {
    song: best.song,
    octaves: best.octaves,
    folded: best.folded,
    leftOut: best.leftOut,
    cutShort: best.cutShort,
  };
}

/** The song with every tone moved by octaves, and those still too high by more. */
function movedBy(song: Song, octaves: number, highest: Hertz): { song: Song; folded: number } {
  let folded = 0;
  const notes = song.notes.map((note): Note => {
    if (note.sound === "noise") return note;
    const top = Math.max(note.pitch, ...note.bends.map(({ to }) => to)) + 12 * octaves;
    const over = Math.max(0, Math.ceil(Math.log2(frequencyOf(top) / highest) - 1e-9));
    if (over > 0) folded++;
    const by = 12 * (octaves - over);
    return by === 0
      ? note
      : { ...note, pitch: note.pitch + by, bends: note.bends.map(({ at, to }) => ({ at, to: to + by })) };
  });
  return { song: octaves === 0 && folded === 0 ? song : { ...song, notes }, folded };
}

/** Part of the wanted notes' time that sounds as a pitch. */
function heardShare(song: Song, asked: Song, highest: Hertz): number {
  const time = ({ notes }: Song, counts: (note: Note) => boolean): number =>
    notes.reduce((sum, note) => sum + (counts(note) ? note.end - note.start : 0), 0);
  const whole = time(asked, () => true);
  const isHeard = ({ sound, pitch }: Note): boolean =>
    sound === "noise" || (frequencyOf(pitch) >= lowestTone && frequencyOf(pitch) <= highest * (1 + 1e-9));
  return whole > 0 ? time(song, isHeard) / whole : 0;
}

function thin(
  song: Song,
  rate: Hertz,
  { priorities, muted }: Shaping,
): { song: Song; leftOut: number; cutShort: number } {
  const margin = 1 / rateWindows[0]!;
  const ends = song.notes.map(({ end }) => end);
  const gone = new Set<number>();
  const priorityOf = ({ voice, sound }: Note): number => priorities[voice] ?? (sound === "noise" ? 0 : 1);
  let sounding: number[] = [];
  let cutShort = 0;
  song.notes.forEach((note, index) => {
    if (muted.has(note.voice)) return;
    sounding = sounding.filter((other) => ends[other]! > note.start);
    sounding.push(index);
    for (;;) {
      const together = sounding.reduce((sum, other) => sum + askedOf(song.notes[other]!), 0);
      if (sounding.length < 2 || together + (sounding.length - 1) * margin <= rate) break;
      const out = leastWanted(sounding);
      sounding = sounding.filter((other) => other !== out);
      const { start } = song.notes[out]!;
      if (note.start - start < shortest) gone.add(out);
      else {
        ends[out] = note.start;
        cutShort++;
      }
    }
  });
  if (gone.size === 0 && cutShort === 0) return { song, leftOut: 0, cutShort: 0 };
  const notes = song.notes.flatMap((note, index) =>
    gone.has(index) ? [] : [ends[index] === note.end ? note : { ...note, end: ends[index]! }],
  );
  return { song: { ...song, notes }, leftOut: gone.size, cutShort };

  function leastWanted(among: readonly number[]): number {
    const pitches = among.map((index) => song.notes[index]!.pitch);
    const [low, high] = [Math.min(...pitches), Math.max(...pitches)];
    const rankOf = (index: number): readonly [number, number, number] => {
      const note = song.notes[index]!;
      const edge = note.pitch === high ? 2 : note.pitch === low ? 1 : 0;
      return [priorityOf(note), edge, note.start];
    };
    return among.reduce((a, b) => (isLess(rankOf(b), rankOf(a)) ? b : a));
  }
}

function askedOf(note: Note): Hertz {
  const top = Math.max(note.pitch, ...note.bends.map(({ to }) => to));
  return note.sound === "noise" ? noiseRate(note.pitch) : frequencyOf(top);
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  for (let n = 0; n < a.length; n++) if (a[n] !== b[n]) return a[n]! < b[n]!;
  return false;
}
