/** The worst of a programme in each of some hundred stretches, for pictures; and what became of its pulses. */
import type { Song } from "../description/song.ts";
import { dutyAt, fateOf, meanAt, type Plan, type Reason, reasons } from "../programme/index.ts";
import type { ProgrammeHistory, ReasonTally, VoiceTally } from "./programme-contract.ts";

const stretches = 600;
const mutedCode = reasons.indexOf("muted");

export function historyOf(plan: Plan): ProgrammeHistory {
  const { schedule, course } = plan;
  const count = schedule.duration > 0 ? stretches : 0;
  const stretch = count > 0 ? schedule.duration / count : 0;
  const placeOf = (time: number): number => Math.min(count - 1, Math.max(0, Math.floor(time / stretch)));
  const worst = (values: Float64Array, { least = false } = {}): Float64Array => {
    if (values.length === 0) return new Float64Array(0);
    const found = new Float64Array(count).fill(Number.NaN);
    for (let n = 0; n < values.length; n++) {
      const at = placeOf(course.start[n]!);
      const value = values[n]!;
      const before = found[at]!;
      if (Number.isNaN(before) || (least ? value < before : value > before)) found[at] = value;
    }
    return found;
  };
  // Stretches without a pulse: nothing flows there; a temperature or a bus is that of the last pulse, or of the first where none was yet.
  const still = (values: Float64Array): Float64Array => values.map((value) => (Number.isNaN(value) ? 0 : value));
  const held = (values: Float64Array): Float64Array => {
    let last = values.find((value) => !Number.isNaN(value)) ?? 0;
    return values.map((value) => {
      if (!Number.isNaN(value)) last = value;
      return last;
    });
  };
  const counts = {
    wanted: new Float64Array(count),
    sent: new Float64Array(count),
    trimmed: new Float64Array(count),
    dropped: new Float64Array(count),
    merged: new Float64Array(count),
  };
  for (let entry = 0; entry < schedule.start.length && count > 0; entry++) {
    const at = placeOf(schedule.start[entry]!);
    counts.wanted[at]!++;
    if (schedule.reason[entry] !== mutedCode) counts[fateOf(plan, entry)][at]!++;
  }
  return {
    time: Float64Array.from({ length: count }, (_, n) => n * stretch),
    stretch,
    duty: still(worst(dutyAt(course, 20e-3))),
    dutySecond: still(worst(dutyAt(course, 1))),
    rate: still(worst(meanAt(course.start, 1, 1))),
    power: still(worst(meanAt(course.start, course.drawn, 1))),
    junction: held(worst(course.junction)),
    capacitor: held(worst(course.capacitor)),
    bus: held(worst(course.bus, { least: true })),
    wanted: counts.wanted,
    sent: counts.sent,
    trimmed: counts.trimmed,
    dropped: counts.dropped,
  };
}

export function reasonsOf(plan: Plan): ReasonTally {
  const tally = Object.fromEntries(reasons.map((reason) => [reason, { trimmed: 0, dropped: 0 }])) as Record<
    Reason,
    { trimmed: number; dropped: number }
  >;
  for (let at = 0; at < plan.schedule.start.length; at++) {
    const fate = fateOf(plan, at);
    if (fate === "trimmed" || fate === "dropped") tally[reasons[plan.schedule.reason[at]!]!][fate]++;
  }
  return tally;
}

export function voicesOf(song: Song, plan: Plan, pulses: Int32Array): VoiceTally[] {
  const tallies = song.voices.map(({ name }) => ({
    name,
    notes: 0,
    silent: 0,
    wanted: 0,
    sent: 0,
    trimmed: 0,
    merged: 0,
    dropped: 0,
  }));
  song.notes.forEach(({ voice }, note) => {
    const tally = tallies[voice];
    if (tally === undefined) return;
    tally.notes++;
    if (pulses[note] === 0) tally.silent++;
  });
  for (let at = 0; at < plan.schedule.start.length; at++) {
    const tally = tallies[song.notes[plan.asked[at]!]!.voice];
    if (tally === undefined) continue;
    tally.wanted++;
    tally[fateOf(plan, at)]++;
  }
  return tallies;
}
