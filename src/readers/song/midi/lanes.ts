/**
 * The lanes of a voice: notes that may share a MIDI channel. A channel has one bend and one loudness for all its notes, so notes that
 * sound together but turn differently need a channel each.
 */
import type { Note, Song, Turn } from "../../../description/song.ts";
import type { Second } from "../../../units/si.ts";

export interface Lane {
  readonly voice: number;
  readonly sound: Note["sound"];
  /** In order of start. */
  readonly notes: Note[];
}

/** Bends that differ by less than this [semitones] are one. */
const sameBend = 1e-6;

interface Filling extends Lane {
  /** Those that still sound at the note in hand. */
  active: Note[];
}

/** The key that is struck for a note. */
export function keyOf({ pitch }: Pick<Note, "pitch">): number {
  return Math.min(127, Math.max(0, Math.round(pitch)));
}

/** Deals the notes of a song to lanes, for each voice as few as the first that fits allows. */
export function lanesOf({ notes }: Song): readonly Lane[] {
  const byVoice = new Map<string, Filling[]>();
  for (const note of notes) {
    const place = `${note.voice} ${note.sound}`;
    const lanes = byVoice.get(place) ?? [];
    byVoice.set(place, lanes);
    let lane = lanes.find((tried) => takes(tried, note));
    if (lane === undefined) {
      lane = { voice: note.voice, sound: note.sound, notes: [], active: [] };
      lanes.push(lane);
    }
    lane.notes.push(note);
    lane.active.push(note);
  }
  return [...byVoice.values()].flat().sort((a, b) => a.voice - b.voice);
}

function takes(lane: Filling, note: Note): boolean {
  lane.active = lane.active.filter(({ end }) => end > note.start);
  return lane.active.every((other) => keyOf(other) !== keyOf(note) && agree(other, note));
}

/** True where two notes have one bend and one loudness while both sound. `later` begins while `earlier` sounds. */
function agree(earlier: Note, later: Note): boolean {
  if (isSteady(earlier) && isSteady(later))
    return (
      earlier.level === later.level &&
      (later.sound === "noise" || Math.abs(earlier.pitch - keyOf(earlier) - later.pitch + keyOf(later)) <= sameBend)
    );
  const span = { from: later.start, to: Math.min(earlier.end, later.end) };
  const bendsOf = (note: Note) =>
    during({ first: note.pitch, turns: note.bends }, span).map(({ at, to }) => ({ at, to: to - keyOf(note) }));
  const swellsOf = (note: Note) => during({ first: note.level, turns: note.swells }, span);
  return (
    (later.sound === "noise" || same(bendsOf(earlier), bendsOf(later), sameBend)) &&
    same(swellsOf(earlier), swellsOf(later), 0)
  );
}

function isSteady({ bends, swells }: Note): boolean {
  return bends.length === 0 && swells.length === 0;
}

function during(
  { first, turns }: { first: number; turns: readonly Turn[] },
  { from, to }: { from: Second; to: Second },
): readonly Turn[] {
  const before = turns.filter(({ at }) => at <= from);
  const within = turns.filter(({ at }) => at > from && at < to);
  return [{ at: from, to: before[before.length - 1]?.to ?? first }, ...within];
}

function same(a: readonly Turn[], b: readonly Turn[], tolerance: number): boolean {
  return (
    a.length === b.length &&
    a.every(({ at, to }, i) => at === b[i]?.at && Math.abs(to - (b[i]?.to ?? Number.NaN)) <= tolerance)
  );
}
