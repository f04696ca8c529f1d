/** `schedule.h`: the pulses of a schedule as runs of even period, small enough for the controller's memory. */
import { OutOfDomain } from "../../catalogue/errors.ts";
import type { Schedule } from "../schedule.ts";
import { fractionsPerTick, toTicks } from "./ticks.ts";

/** Pulses at `start + i·period`: what the controller counts on in whole numbers. */
interface Run {
  readonly start: number;
  readonly on: number;
  readonly count: number;
  /** In 1/4096 ticks; 0 for a single pulse. */
  readonly period: number;
}

/** [ticks]: a run may place a pulse this far from where the schedule has it. */
const tolerance = 1;
const mostInRun = 65_535;
/** What the controller's 32 bits hold beside the fraction that it adds; slower pulses are runs of their own. */
const longestPeriod = 2 ** 32 - fractionsPerTick;
const mostAtOnce = 24;

/** What the schedule needs of the controller. */
export interface StoredSchedule {
  readonly header: string;
  readonly bytes: number;
  readonly pulses: number;
  readonly runs: number;
}

/**
 * Writes a schedule as C data.
 *
 * Each pulse lands within 1.5 ticks (0.75 µs) of the schedule: half a tick of rounding and one of its run.
 *
 * @throws OutOfDomain  more than 24 runs sound at once
 */
export function storedSchedule(schedule: Schedule): StoredSchedule {
  const runs = runsOf(schedule);
  const bytes: number[] = [];
  let before = 0;
  let pulses = 0;
  for (const run of runs) {
    pushNumber(bytes, run.start - before);
    pushNumber(bytes, run.count);
    pushNumber(bytes, run.on);
    if (run.count > 1) pushNumber(bytes, run.period);
    before = run.start;
    pulses += run.count;
  }
  return { header: headerOf(runs, bytes), bytes: bytes.length, pulses, runs: runs.length };
}

function headerOf(runs: readonly Run[], bytes: readonly number[]): string {
  const rows: string[] = [];
  for (let at = 0; at < bytes.length; at += 16) rows.push(`  ${bytes.slice(at, at + 16).join(", ")},`);
  return [
    "/* Runs, each: start after the run before, count, on-time, and for more than one pulse the period in 1/4096 ticks.",
    " * Every number in groups of seven bits, lowest first; the eighth bit says that more follow. */",
    "#ifndef SCHEDULE_H",
    "#define SCHEDULE_H",
    "",
    `#define SCHEDULE_RUNS ${runs.length}`,
    `#define RUNS_AT_ONCE ${Math.max(1, atOnce(runs))}`,
    "",
    "static const uint8_t schedule[] PROGMEM = {",
    ...(rows.length === 0 ? ["  0,"] : rows),
    "};",
    "",
    "#endif",
    "",
  ].join("\n");
}

function runsOf(schedule: Schedule): readonly Run[] {
  const byNote = new Map<number, { start: number; on: number }[]>();
  schedule.start.forEach((start, index) => {
    const on = toTicks(schedule.onTime[index] ?? 0);
    if (on <= 0) return;
    const note = schedule.note[index] ?? -1;
    const pulses = byNote.get(note);
    if (pulses === undefined) byNote.set(note, [{ start: toTicks(start), on }]);
    else pulses.push({ start: toTicks(start), on });
  });
  return [...byNote.values()].flatMap(runsOfNote).sort((a, b) => a.start - b.start);
}

function runsOfNote(pulses: readonly { readonly start: number; readonly on: number }[]): Run[] {
  const runs: Run[] = [];
  for (let from = 0; from < pulses.length; ) {
    const run = longestRun(pulses, from);
    runs.push(run);
    from += run.count;
  }
  return runs;
}

/**
 * The longest run of one on-time from a pulse on. The periods that keep pulse i within the tolerance form an interval; the run ends
 * where the intervals of all its pulses have no period in common.
 */
function longestRun(pulses: readonly { readonly start: number; readonly on: number }[], from: number): Run {
  const first = pulses[from];
  if (first === undefined) throw new OutOfDomain("longestRun", "no pulse there");
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let count = 1;
  for (; count < mostInRun; count++) {
    const pulse = pulses[from + count];
    if (pulse === undefined || pulse.on !== first.on) break;
    const away = (pulse.start - first.start) * fractionsPerTick;
    const lowest = Math.max(low, Math.ceil((away - tolerance * fractionsPerTick) / count));
    const highest = Math.min(high, Math.floor((away + tolerance * fractionsPerTick) / count));
    if (lowest > highest || lowest <= 0 || highest >= longestPeriod) break;
    low = lowest;
    high = highest;
  }
  return { start: first.start, on: first.on, count, period: count > 1 ? Math.round((low + high) / 2) : 0 };
}

/** The greatest number of runs that have pulses left at one time, the next one to be read included. */
function atOnce(runs: readonly Run[]): number {
  const ends: number[] = [];
  let most = 0;
  for (const run of runs) {
    const still = ends.filter((end) => end >= run.start);
    ends.splice(0, ends.length, ...still, run.start + (run.period * run.count) / fractionsPerTick);
    most = Math.max(most, ends.length);
  }
  if (most + 1 > mostAtOnce) {
    throw new OutOfDomain("storedSchedule", `${most} runs sound at once, the controller follows ${mostAtOnce - 1}`);
  }
  return most + 1;
}

function pushNumber(bytes: number[], number: number): void {
  let rest = number;
  do {
    const part = rest % 128;
    rest = Math.floor(rest / 128);
    bytes.push(rest > 0 ? part + 128 : part);
  } while (rest > 0);
}
