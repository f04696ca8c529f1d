/** A long record drawn in few points: what a pixel column cannot hold apart is drawn as its least and its greatest. */
import type { Scale } from "./plots.ts";

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Index of the first time that is not before `at`; the length of the record where all are. `time` ascends. */
export function firstNotBefore(time: ArrayLike<number>, at: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((time[middle] ?? 0) < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Value at a time: straight between samples, or the last one's where `held`; the nearest end's outside the record. Zero for an empty one. */
export function sampleAt(time: ArrayLike<number>, values: ArrayLike<number>, at: number, held = false): number {
  const right = firstNotBefore(time, at);
  if (right >= time.length) return values[time.length - 1] ?? 0;
  const now = values[right] ?? 0;
  if (right === 0 || time[right] === at) return now;
  const before = values[right - 1] ?? 0;
  if (held) return before;
  const start = time[right - 1] ?? 0;
  const share = (at - start) / ((time[right] ?? 0) - start);
  return before + share * (now - before);
}

interface Drawn {
  readonly time: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  readonly span: Span;
  readonly x: Scale;
  readonly y: Scale;
  /** Jumps upright from sample to sample, as a gate does, where they are far apart; straight between them where absent. */
  readonly held?: boolean;
}

/** A step of this part of the height is a jump. */
const jumpOf = 0.15;

/** A place on the page to a tenth; quicker than writing digits that are cut off again. */
export const tenths = (place: number) => Math.round(place * 10) / 10;

const point = (x: number, y: number) => `${tenths(x)} ${tenths(y)}`;

/**
 * SVG path of a record within a span of time, from edge to edge.
 *
 * As long as there are fewer than two samples for every page unit across, every sample is a point of the path; above that a column of the page
 * gets its first, least, greatest and last value, in the order of time, so that no peak is lost.
 */
export function wavePath({ time, values, span, x, y, held = false }: Drawn): string {
  const first = firstNotBefore(time, span.from);
  const end = firstNotBefore(time, span.to);
  const left = x.toPage(span.from);
  const right = x.toPage(span.to);
  const columns = Math.max(1, Math.floor(right - left));
  let last = y.toPage(sampleAt(time, values, span.from, held));
  let path = `M${point(left, last)}`;
  const jump = jumpOf * Math.abs(y.toPage(y.high) - y.toPage(y.low));
  const go = (at: number, to: number) => {
    path += held && Math.abs(to - last) > jump ? `H${tenths(at)}V${tenths(to)}` : `L${point(at, to)}`;
    last = to;
  };
  if (end - first <= 2 * columns) {
    for (let n = first; n < end; n++) {
      go(x.toPage(time[n] ?? 0), y.toPage(values[n] ?? 0));
    }
  } else {
    for (let n = first; n < end; ) {
      const column = Math.floor(x.toPage(time[n] ?? 0));
      let least = n;
      let greatest = n;
      const start = n;
      while (n < end && Math.floor(x.toPage(time[n] ?? 0)) === column) {
        if ((values[n] ?? 0) < (values[least] ?? 0)) least = n;
        if ((values[n] ?? 0) > (values[greatest] ?? 0)) greatest = n;
        n++;
      }
      const kept = [...new Set([start, Math.min(least, greatest), Math.max(least, greatest), n - 1])];
      for (const each of kept) go(column + 0.5, y.toPage(values[each] ?? 0));
    }
  }
  go(right, y.toPage(sampleAt(time, values, span.to, held)));
  return path;
}

/** Least and greatest value within a span; zero twice where there is none. */
export function extremes(time: ArrayLike<number>, values: ArrayLike<number>, { from, to }: Span): [number, number] {
  let low = sampleAt(time, values, from);
  let high = low;
  const take = (value: number) => {
    low = Math.min(low, value);
    high = Math.max(high, value);
  };
  take(sampleAt(time, values, to));
  for (let n = firstNotBefore(time, from); n < time.length && (time[n] ?? 0) <= to; n++) take(values[n] ?? 0);
  return [low, high];
}

/** Greatest absolute value of each half-cycle: where it stands and how high, the first and the last sample included. */
export function envelopeOf(
  time: ArrayLike<number>,
  values: ArrayLike<number>,
): { time: Float64Array; values: Float64Array } {
  const kept: [number, number][] = [[time[0] ?? 0, Math.abs(values[0] ?? 0)]];
  let peak = 0;
  let at = -1;
  for (let n = 1; n < time.length; n++) {
    const value = values[n] ?? 0;
    if (value * (values[n - 1] ?? 0) < 0 && at >= 0) {
      kept.push([time[at] ?? 0, peak]);
      peak = 0;
      at = -1;
    }
    if (Math.abs(value) > peak) {
      peak = Math.abs(value);
      at = n;
    }
  }
  if (at >= 0) kept.push([time[at] ?? 0, peak]);
  return { time: Float64Array.from(kept, ([t]) => t), values: Float64Array.from(kept, ([, v]) => v) };
}
