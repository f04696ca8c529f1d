/** From a song and limits to a schedule: wanted pulses, collisions, hard limits. */
import type { Song } from "../description/song.ts";
import { resolveCollisions } from "./collisions.ts";
import { type Course, enforce, type Load } from "./enforce.ts";
import type { ProgrammeLimits } from "./limits.ts";
import { reasons, type Schedule } from "./schedule.ts";
import { type Shaping, wantedPulses } from "./trains.ts";

export interface Plan {
  readonly schedule: Schedule;
  /** For every entry of the schedule the entry that it was merged into, else −1. */
  readonly into: Int32Array;
  /** For every entry the note that asked for it, also where several were merged. */
  readonly asked: Int32Array;
  /** By note: octaves by which it had to be lowered, at most, since it is too high for rate or gap. */
  readonly lowered: Uint8Array;
  /** Of the pulses sent; `pulse` is the entry. */
  readonly course: Course;
}

/**
 * Plans a song.
 *
 * @param song     notes in order of their start
 * @param shaping  on-times, priorities, what is muted; see `Shaping`
 * @param load     what pulses cost; without it the limits on power, bus and temperatures are not looked at
 * @returns a schedule in which every pulse keeps every limit; see `ProgrammeLimits` for what that means
 */
export function planSong(
  song: Song,
  { limits, shaping, load }: { limits: ProgrammeLimits; shaping: Shaping; load?: Load },
): Plan {
  const { pulses, lowered } = wantedPulses(song, limits, shaping);
  const count = pulses.count;
  const wantedStart = pulses.start.slice(0, count);
  const priorities = Float64Array.from(
    song.notes,
    ({ voice, sound }) => shaping.priorities[voice] ?? (sound === "noise" ? 0 : 1),
  );
  const { into, carries } = resolveCollisions(pulses, { priorities, gap: limits.gap });
  const order = inOrder(pulses.start, count);
  const start = sorted(Float64Array, pulses.start, order);
  const onTime = sorted(Float64Array, pulses.planned, order);
  const reason = sorted(Uint8Array, pulses.reason, order);
  const asked = sorted(Int32Array, pulses.note, order);
  const course = enforce({ start, planned: onTime, reason }, { limits, load, least: shaping.least });
  const place = new Int32Array(count);
  order.forEach((at, n) => {
    place[at] = n;
  });
  return {
    schedule: {
      note: asked.map((note, n) => (carries[order[n]!] === 1 ? -1 : note)),
      start,
      wantedStart: sorted(Float64Array, wantedStart, order),
      onTime,
      wantedOnTime: sorted(Float64Array, pulses.onTime, order),
      reason,
      duration: song.duration,
    },
    into: sorted(Int32Array, into, order).map((at) => (at < 0 ? -1 : place[at]!)),
    asked,
    lowered,
    course,
  };
}

/** Order of the starts; they are nearly in order already. */
function inOrder(start: Float64Array, count: number): Int32Array {
  const order = new Int32Array(count);
  for (let n = 0; n < count; n++) {
    let to = n;
    while (to > 0 && start[order[to - 1]!]! > start[n]!) {
      order[to] = order[to - 1]!;
      to--;
    }
    order[to] = n;
  }
  return order;
}

function sorted<T extends Float64Array | Int32Array | Uint8Array>(
  Kind: new (length: number) => T,
  values: T,
  order: Int32Array,
): T {
  const made = new Kind(order.length);
  for (let n = 0; n < order.length; n++) made[n] = values[order[n]!]!;
  return made;
}

/** What became of an entry. */
export type Fate = "sent" | "trimmed" | "merged" | "dropped";

/** The fate of an entry of a plan. One that was merged into a pulse that is not sent is dropped with it. */
export function fateOf({ schedule, into }: Pick<Plan, "schedule" | "into">, at: number): Fate {
  if (into[at]! >= 0 && schedule.onTime[into[at]!]! > 0) return "merged";
  if (schedule.onTime[at]! === 0) return "dropped";
  return schedule.reason[at] === reasons.indexOf("none") ? "sent" : "trimmed";
}
