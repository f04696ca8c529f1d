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
  // The kept pulses before the one looked at, the last and the one before it.
  let last = -1;
  let before = -1;
  const endOf = (at: number): Second => (at < 0 ? Number.NEGATIVE_INFINITY : start[at]! + planned[at]! + gap);
  const drop = (at: number, why = collision): void => {
    planned[at] = 0;
    reason[at] = why;
    start[at] = wanted[at]!;
    lost[note[at]!]!++;
  };
  const keep = (at: number): void => {
    lost[note[at]!] = 0;
    before = last;
    last = at;
  };
  for (let at = 0; at < count; at++) {
    if (planned[at]! === 0) continue;
    const lack = endOf(last) - start[at]!;
    // A tone exactly as high as its gap allows meets itself by rounding alone.
    if (lack <= timeTolerance / 2) {
      keep(at);
      continue;
    }
    const later = Math.min(lack, slack[at]!);
    const earliest = Math.max(endOf(before), wanted[last]! - slack[last]!);
    const earlier = lack - later;
    if (earlier <= start[last]! - earliest && carries[last] === 0) {
      start[last]! -= earlier;
      start[at]! += later;
      keep(at);
    } else if (earlier === 0) {
      start[at]! += later;
      keep(at);
    } else if (note[at] !== note[last] && Math.abs(start[at]! - start[last]!) <= slack[at]!) {
      into[at] = last;
      carries[last] = 1;
      planned[last] = Math.max(planned[last]!, planned[at]!);
      onTime[last] = Math.max(onTime[last]!, onTime[at]!);
      planned[at] = 0;
      reason[at] = collision;
      lost[note[at]!] = 0;
    } else if (carries[last] === 0 && note[at] !== note[last] && comesFirst(at, last)) {
      const gone = last;
      last = before;
      drop(gone);
      const moved = Math.max(start[at]!, endOf(last));
      if (moved - start[at]! <= slack[at]!) {
        start[at] = moved;
        lost[note[at]!] = 0;
        last = at;
      } else drop(at);
    } else drop(at, note[at] === note[last] ? gapReason : collision);
  }
  return { into, carries };

  function comesFirst(at: number, other: number): boolean {
    const [a, b] = [note[at]!, note[other]!];
    return priorities[a]! !== priorities[b]! ? priorities[a]! > priorities[b]! : lost[a]! > lost[b]!;
  }
}
