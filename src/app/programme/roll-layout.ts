/** Where the strips of the picture stand, and how time and values turn into pixels. */

/** Of one strip, in CSS pixels from the top. */
interface Strip {
  readonly top: number;
  readonly height: number;
}

export interface RollLayout {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly notes: Strip;
  /** Marks of pulses that were shortened, and of those left out. */
  readonly trimmed: Strip;
  readonly dropped: Strip;
  readonly pulses: Strip;
  readonly duty: Strip;
  readonly junction: Strip;
  readonly axis: Strip;
}

/** The strips one below the other; on a narrow screen the words take less of the width. */
export function layRoll(width: number): RollLayout {
  const left = width < 520 ? 44 : 64;
  let top = 0;
  const next = (height: number, gap: number): Strip => {
    const strip = { top: top + gap, height };
    top += gap + height;
    return strip;
  };
  const strips = {
    notes: next(176, 18),
    trimmed: next(13, 22),
    dropped: next(13, 1),
    pulses: next(76, 3),
    duty: next(54, 22),
    junction: next(54, 22),
    axis: next(24, 0),
  };
  return { width, height: top, left, right: width - 8, ...strips };
}

/** Pixels of a time. */
export function timeScale({ left, right }: RollLayout, { from, to }: { readonly from: number; readonly to: number }) {
  const perSecond = (right - left) / (to - from);
  return {
    perSecond,
    toPage: (time: number): number => left + (time - from) * perSecond,
    toTime: (x: number): number => from + (x - left) / perSecond,
  };
}

/** Pixels of a value in a strip, 0 or `low` at its foot. */
export function valueScale(
  { top, height }: Strip,
  { low = 0, high }: { readonly low?: number; readonly high: number },
) {
  const perUnit = high > low ? height / (high - low) : 0;
  return (value: number): number => top + height - Math.min(height, Math.max(0, (value - low) * perUnit));
}

/** First entry at or after a time; entries in order. */
export function firstFrom(times: ArrayLike<number>, time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
