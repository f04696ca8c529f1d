/** Shortening that is spread over a window, so that a passage becomes softer and not ragged. */
import type { Second } from "../units/si.ts";

/**
 * By what each pulse has to shrink so that every window keeps its sum: the least, over the windows that the pulse is in, of limit over sum.
 *
 * A window is looked at for every pulse: it ends with that pulse, and is longer than `window` by it, so that it holds whatever is left of the pulse
 * when it has been shortened.
 *
 * @param start, weight  of the pulses sent, in order of time; what is added up is `weight`
 * @param length         on-times: a pulse across the window's edge counts with the part inside. Undefined: it counts whole where it starts inside
 * @param shares         multiplied by what is found, 1 where nothing has to shrink
 */
export function evenOut({
  start,
  weight,
  length,
  window,
  most,
  shares,
}: {
  start: Float64Array;
  weight: Float64Array;
  length: Float64Array | undefined;
  window: Second;
  most: number;
  shares: Float64Array;
}): void {
  const count = start.length;
  const factor = new Float64Array(count);
  const first = new Int32Array(count);
  let sum = 0;
  let from = 0;
  let isOver = false;
  for (let at = 0; at < count; at++) {
    sum += weight[at]!;
    const begins = start[at]! - window;
    while (start[from]! + (length ? length[from]! : 0) <= begins) sum -= weight[from++]!;
    first[at] = from;
    // The part of the first one that lies before the window.
    const cut = length ? Math.max(0, begins - start[from]!) : 0;
    factor[at] = sum - cut > most ? most / (sum - cut) : 1;
    if (factor[at]! < 1) isOver = true;
  }
  if (!isOver) return;
  // Backwards: the windows that a pulse is in are those of the pulses from itself on, up to the last whose window begins at or before it.
  const queue = new Int32Array(count);
  let head = count;
  let tail = count - 1;
  // The queue holds windows in descending order of time with factors that rise from `tail` to `head`; `queue[tail]` is the latest.
  let reach = count - 1;
  for (let at = count - 1; at >= 0; at--) {
    while (head <= tail && factor[queue[head]!]! >= factor[at]!) head++;
    queue[--head] = at;
    while (first[reach]! > at) reach--;
    while (queue[tail]! > reach) tail--;
    shares[at] = Math.min(shares[at]!, factor[queue[tail]!]!);
  }
}
