/** Notes to trains of pulses: each note's own, before they meet. */
import type { Note, Song } from "../description/song.ts";
import type { Hertz, Second } from "../units/si.ts";
import type { ProgrammeLimits } from "./limits.ts";
import { rateWindows } from "./limits.ts";
import { equalLoudness, type OnTimeRange, onTimeOf } from "./loudness.ts";
import { centsBetween, frequencyOf } from "./pitch.ts";
import { reasons } from "./schedule.ts";
import { seededNumbers } from "./seeded.ts";
import { WantedPulses } from "./wanted.ts";

export interface Shaping {
  readonly range: OnTimeRange;
  /** A pulse that would have to be shorter than this is left out. */
  readonly least: Second;
  /** By voice; the higher one is kept where two cannot both be. Tones are at 1 and noise at 0 where absent. */
  readonly priorities: readonly (number | undefined)[];
  /** Indices of voices that are not to sound. */
  readonly muted: ReadonlySet<number>;
  /** By which a pulse of a tone may move: as much as this changes its period [cent]. */
  readonly shift: number;
  readonly seed: number;
  /** Without it velocity and level alone make the on-time. */
  readonly equalLoudness: boolean;
}

/** Part of the period by which a pulse of noise may move. */
const noiseSlack = 0.25;
/** A burst of noise fades by e in this time, and is over after three of them. */
const noiseFades: Second = 50e-3;
const noiseLasts: Second = 3 * noiseFades;
/** Pulses a second of a burst of noise, at least and at most. */
const noiseRates = { least: 80, greatest: 500 } as const;

/** Mean pulses a second of a burst of noise: its pitch is a colour, twice its frequency within those bounds. */
export function noiseRate(pitch: number): Hertz {
  return Math.min(noiseRates.greatest, Math.max(noiseRates.least, 2 * frequencyOf(pitch)));
}

/** Starting phases that are weighed against each other, and how far they look. */
const phases = 32;
const phaseHorizon: Second = 50e-3;
const phasePeriods = 16;

const reasonGap = reasons.indexOf("gap");
const reasonRate = reasons.indexOf("rate");
const reasonMuted = reasons.indexOf("muted");
const reasonOnTime = reasons.indexOf("onTime");

/** A note that sounds. */
interface Train {
  readonly index: number;
  readonly note: Note;
  readonly muted: boolean;
  readonly priority: number;
  readonly end: Second;
  readonly chance: (() => number) | undefined;
  next: Second;
  cycle: number;
  frequency: Hertz;
  /** Every so many cycles one pulse, where the tone is too high for every one of them. */
  every: number;
  level: number;
  onTime: Second;
  slack: Second;
  bend: number;
  swell: number;
  /** Left out while notes that come first use up the rate. */
  silent: boolean;
}

/**
 * Every pulse that the notes of a song ask for, in order of time.
 *
 * A tone's pulses are at the integers of its phase, ∫ f dt from a starting phase that is chosen so that it meets the pulses of the tones that sound
 * already as seldom as can be; so the first is up to a period late. A tone too high for rate or gap keeps every second, fourth, … of its pulses,
 * an octave lower each. Where the tones that sound would together pass the rate, those that come last are silent meanwhile: by priority, then
 * the newer one, then the higher one comes first. Noise is a train with chance in its intervals.
 *
 * @returns the pulses, and by note the octaves that it was lowered by at most
 * @source iso-16 for pitch; policies are this project's own
 */
export function wantedPulses(
  song: Song,
  limits: ProgrammeLimits,
  shaping: Shaping,
): { readonly pulses: WantedPulses; readonly lowered: Uint8Array } {
  const pulses = new WantedPulses();
  const lowered = new Uint8Array(song.notes.length);
  const heap: Train[] = [];
  const { notes } = song;
  const highest: Hertz = Math.min(limits.rate, 1 / (limits.gap + shaping.least));
  let upcoming = 0;
  while (upcoming < notes.length || heap.length > 0) {
    const note = notes[upcoming];
    const soonest = heap[0];
    if (note !== undefined && (soonest === undefined || note.start <= soonest.next)) {
      const train = trainOf({ note, index: upcoming++, limits, shaping, highest });
      train.next = note.start + startingDelay(train, heap, limits);
      if (train.next < train.end) {
        push(heap, train);
        shareRate(heap, limits.rate);
      }
    } else if (soonest !== undefined) {
      emit(pulses, soonest, limits, shaping);
      if (soonest.every > 1) lowered[soonest.index] = Math.max(lowered[soonest.index]!, Math.log2(soonest.every));
      advance(soonest, { limits, shaping, highest });
      if (soonest.next >= soonest.end) {
        pop(heap);
        shareRate(heap, limits.rate);
      } else sink(heap);
    }
  }
  return { pulses, lowered };
}

function trainOf({
  note,
  index,
  limits,
  shaping,
  highest,
}: {
  note: Note;
  index: number;
  limits: ProgrammeLimits;
  shaping: Shaping;
  highest: Hertz;
}): Train {
  const isNoise = note.sound === "noise";
  const train: Train = {
    index,
    note,
    muted: shaping.muted.has(note.voice),
    priority: shaping.priorities[note.voice] ?? (isNoise ? 0 : 1),
    end: isNoise ? Math.min(note.end, note.start + noiseLasts) : note.end,
    chance: isNoise ? seededNumbers(shaping.seed + 7919 * index) : undefined,
    next: note.start,
    cycle: 0,
    frequency: 0,
    every: 1,
    level: note.level,
    onTime: 0,
    slack: 0,
    bend: 0,
    swell: 0,
    silent: false,
  };
  tune(train, note.pitch, { limits, shaping, highest });
  return train;
}

/** What follows from another pitch or another level. */
function tune(
  train: Train,
  pitch: number,
  { shaping, highest }: { limits: ProgrammeLimits; shaping: Shaping; highest: Hertz },
): void {
  if (train.chance) {
    train.frequency = Math.min(highest, noiseRate(pitch));
    train.slack = noiseSlack / train.frequency;
  } else {
    const asked = frequencyOf(pitch);
    train.frequency = asked;
    train.every = asked > highest ? 2 ** Math.ceil(centsBetween({ from: highest, to: asked }) / 1200 - 1e-9) : 1;
    train.slack = (2 ** (shaping.shift / 1200) - 1) / asked;
  }
  train.onTime = onTimeOf({
    range: shaping.range,
    velocity: train.note.velocity,
    level: train.level,
    weight: shaping.equalLoudness && !train.chance ? equalLoudness(pitch) : 1,
  });
}

function emit(pulses: WantedPulses, train: Train, limits: ProgrammeLimits, shaping: Shaping): void {
  const { index: note, next: start, slack, every, frequency, chance } = train;
  const onTime = chance
    ? shaping.least + (train.onTime - shaping.least) * Math.exp(-(start - train.note.start) / noiseFades)
    : train.onTime;
  if (train.muted) pulses.add({ note, start, onTime, planned: 0, slack, reason: reasonMuted });
  else if (train.silent) pulses.add({ note, start, onTime, planned: 0, slack, reason: reasonRate });
  else if (train.cycle % every !== 0)
    pulses.add({
      note,
      start,
      onTime,
      planned: 0,
      slack,
      reason: frequency > limits.rate ? reasonRate : reasonGap,
    });
  else {
    // A tone's next pulse must not come before the gap is over.
    const room = every / frequency - limits.gap;
    const allowed = Math.min(limits.onTime, chance ? Number.POSITIVE_INFINITY : room);
    const planned = Math.min(onTime, allowed);
    const reason = planned === onTime ? 0 : room < limits.onTime && !chance ? reasonGap : reasonOnTime;
    pulses.add({ note, start, onTime, planned, slack, reason });
  }
}

/** To the next pulse: one more turn of the phase, through every bend on the way. */
function advance(train: Train, with_: { limits: ProgrammeLimits; shaping: Shaping; highest: Hertz }): void {
  const { note, chance } = train;
  train.cycle++;
  if (chance) {
    train.next += (0.5 + chance()) / train.frequency;
    return;
  }
  let left = 1;
  for (;;) {
    const bend = note.bends[train.bend];
    const arrives = train.next + left / train.frequency;
    if (bend === undefined || bend.at >= arrives) {
      train.next = arrives;
      break;
    }
    if (bend.at > train.next) {
      left -= (bend.at - train.next) * train.frequency;
      train.next = bend.at;
    }
    train.bend++;
    tune(train, bend.to, with_);
  }
  const swells = note.swells;
  let turned = false;
  while (train.swell < swells.length && swells[train.swell]!.at <= train.next) {
    train.level = swells[train.swell++]!.to;
    turned = true;
  }
  if (turned) tune(train, pitchNow(train), with_);
}

function pitchNow({ note, bend }: Train): number {
  return bend === 0 ? note.pitch : note.bends[bend - 1]!.to;
}

const meetings = new Int32Array(phases);

/** The delay, up to a period, after which a tone's pulses meet those of the others least often in the next moments; the shortest of equal ones. */
function startingDelay(train: Train, others: readonly Train[], { gap }: ProgrammeLimits): Second {
  if (train.chance || train.muted || others.length === 0) return 0;
  const period = train.every / train.frequency;
  const { start } = train.note;
  const until = Math.min(train.end, start + Math.min(phaseHorizon, phasePeriods * period));
  meetings.fill(0);
  for (const other of others) {
    if (other.chance || other.muted || other.silent) continue;
    const before = (train.onTime + gap) / period;
    const after = (other.onTime + gap) / period;
    if (before + after >= 1) continue;
    for (let time = other.next; time < until; time += other.every / other.frequency) {
      const phase = (time - start) / period;
      const first = Math.ceil((phase - before) * phases);
      const last = Math.floor((phase + after) * phases);
      for (let n = first; n <= last; n++) meetings[((n % phases) + phases) % phases]!++;
    }
  }
  let best = 0;
  for (let n = 1; n < phases; n++) if (meetings[n]! < meetings[best]!) best = n;
  return (best / phases) * period;
}

/** Silences the trains that come last until the others together keep the rate; the first one always sounds. */
function shareRate(trains: readonly Train[], rate: Hertz): void {
  let together = 0;
  let sounding = 0;
  for (const train of trains) {
    train.silent = false;
    if (train.muted) continue;
    sounding++;
    together += train.frequency / train.every;
  }
  // Trains that together just keep the rate may still fall one start closer in a window for each of them but the first.
  const margin = 1 / rateWindows[0]!;
  if (together + (sounding - 1) * margin <= rate) return;
  const inTurn = trains
    .filter(({ muted }) => !muted)
    .sort(
      (a, b) =>
        b.priority - a.priority || b.note.start - a.note.start || b.note.pitch - a.note.pitch || a.index - b.index,
    );
  together = 0;
  inTurn.forEach((train, n) => {
    const more = together + train.frequency / train.every + (n > 0 ? margin : 0);
    if (n > 0 && more > rate) train.silent = true;
    else together = more;
  });
}

// A heap by the time of the next pulse, then by note, soonest first.
const comesBefore = (a: Train, b: Train): boolean => a.next < b.next || (a.next === b.next && a.index < b.index);

function push(heap: Train[], train: Train): void {
  let at = heap.length;
  heap.push(train);
  while (at > 0) {
    const above = (at - 1) >> 1;
    if (!comesBefore(train, heap[above]!)) break;
    heap[at] = heap[above]!;
    at = above;
  }
  heap[at] = train;
}

function pop(heap: Train[]): void {
  const last = heap.pop();
  if (last === undefined || heap.length === 0) return;
  heap[0] = last;
  sink(heap);
}

function sink(heap: Train[]): void {
  const train = heap[0]!;
  let at = 0;
  for (;;) {
    let below = 2 * at + 1;
    if (below >= heap.length) break;
    if (below + 1 < heap.length && comesBefore(heap[below + 1]!, heap[below]!)) below++;
    if (!comesBefore(heap[below]!, train)) break;
    heap[at] = heap[below]!;
    at = below;
  }
  heap[at] = train;
}
