/** Where pulses of several notes meet. */
import type { Second } from "../units/si.ts";
import { timeTolerance } from "./limits.ts";
import { reasons } from "./schedule.ts";
import type { WantedPulses } from "./wanted.ts";

const collision = reasons.indexOf("collision");
const gapReason = reasons.indexOf("gap");

/**
 * Moves, merges or drops pulses until each starts at least the gap after the end of the one before.
 *
 * Two that are too close: (1) the later moves back and, where that is not enough, the earlier moves forward, each within its slack; (2) else they
 * become one where the later one's slack reaches the earlier one's start, as long as the longer of the two; (3) else one is dropped: that of lower
 * priority, and of equal ones that of the note which has lost fewer in a row, and of these the later.
 *
 * @param pulses      as wanted; `start`, `onTime`, `planned` and `reason` are changed
 * @param priorities  by note
 * @returns for every pulse the one that it was merged into, else −1; and 1 where others were merged into it
 */
export function resolveCollisions(
  pulses: WantedPulses,
  { priorities, gap }: { readonly priorities: ArrayLike<number>; readonly gap: Second },
): { readonly into: Int32Array; readonly carries: Uint8Array } {
  const { count, start, onTime, planned, slack, note, reason } = pulses;
  const into = new Int32Array(count).fill(-1);
  const carries = new Uint8Array(count);
  const wanted = start.slice(0, count);
  const lost = new Int32Array(priorities.length);
  // The pulses kept so far, in order.
  const kept = new Int32Array(count);
  let many = 0;
  const endOf = (at: number | undefined): Second =>
    at === undefined ? Number.NEGATIVE_INFINITY : start[at]! + planned[at]! + gap;
  const keep = (at: number): void => {
    lost[note[at]!] = 0;
    kept[many++] = at;
  };
  const drop = (at: number, why: number): void => {
    planned[at] = 0;
    reason[at] = why;
    start[at] = wanted[at]!;
    lost[note[at]!]!++;
  };
  for (let at = 0; at < count; at++) {
    if (planned[at]! === 0) continue;
    const last = many > 0 ? kept[many - 1]! : -1;
    const lack = many > 0 ? endOf(last) - start[at]! : 0;
    // A tone exactly as high as its gap allows meets itself by rounding alone.
    if (lack <= timeTolerance / 2) {
      keep(at);
      continue;
    }
    const beforeLast = endOf(many > 1 ? kept[many - 2] : undefined);
    const later = Math.min(lack, slack[at]!);
    const earlier = lack - later;
    const room = carries[last] === 1 ? 0 : start[last]! - Math.max(beforeLast, wanted[last]! - slack[last]!);
    if (earlier <= Math.max(0, room)) {
      start[last]! -= earlier;
      start[at]! += later;
      keep(at);
      continue;
    }
    if (note[at] === note[last]) {
      drop(at, gapReason);
      continue;
    }
    if (Math.abs(start[at]! - start[last]!) <= slack[at]!) {
      into[at] = last;
      carries[last] = 1;
      planned[last] = Math.max(planned[last]!, planned[at]!);
      onTime[last] = Math.max(onTime[last]!, onTime[at]!);
      reason[last] = planned[last]! < onTime[last]! ? reason[last]! || reason[at]! : 0;
      planned[at] = 0;
      reason[at] = collision;
      lost[note[at]!] = 0;
      continue;
    }
    const instead = Math.max(start[at]!, beforeLast);
    if (carries[last] === 0 && comesFirst(at, last) && instead - start[at]! <= slack[at]!) {
      drop(last, collision);
      many--;
      start[at] = instead;
      keep(at);
    } else drop(at, collision);
  }
  return { into, carries };

  function comesFirst(at: number, other: number): boolean {
    const [a, b] = [note[at]!, note[other]!];
    return priorities[a]! !== priorities[b]! ? priorities[a]! > priorities[b]! : lost[a]! > lost[b]!;
  }
}
