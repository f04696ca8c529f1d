/** Peaks of the half-cycles of a primary current at the start of a burst. */
import type { Ampere, Second } from "../../units/si.ts";
import type { HalfCyclePeak } from "./observed.ts";

/** Peaks below this part of the greatest, or this many times the noise, are no half-cycles. */
const [leastShare, leastNoises] = [0.02, 3];

/**
 * Peak of each half-cycle, by the least-squares parabola about its greatest sample; a half-cycle lies between two changes of sign.
 *
 * @param samples    of the channel; NaN ends the search, as does a value at the converter's end
 * @param perUnit    [A] of one unit of the samples
 * @param from, to   samples: the start of the drive and where to look last
 * @param noise      standard deviation of one sample, in the channel's unit
 * @param offset     of the channel at rest, in its unit
 * @param interval   [s]
 * @param most       half-cycles
 */
export function currentPeaks({
  samples,
  perUnit,
  from,
  to,
  noise,
  offset,
  interval,
  most,
}: {
  samples: Float32Array;
  perUnit: number;
  from: number;
  to: number;
  noise: number;
  offset: number;
  interval: Second;
  most: number;
}): readonly HalfCyclePeak[] {
  const first = Math.max(0, Math.round(from));
  const last = Math.min(samples.length - 1, Math.round(to));
  const value = (n: number): number => samples[n]! - offset;
  let greatest = 0;
  for (let n = first; n <= last; n++) greatest = Math.max(greatest, Math.abs(value(n)) || 0);
  const least = Math.max(leastShare * greatest, leastNoises * noise);
  const peaks: HalfCyclePeak[] = [];
  // The loud samples of one half-cycle, and the greatest of them.
  let [begun, ended, at] = [-1, -1, -1];
  const close = (): void => {
    if (at < 0) return;
    const top = topOf(value, { at, begun, ended });
    // The side of a half-cycle before the drive's start belongs to no half-cycle of this burst.
    peaks.push({
      current: Math.abs(top.value) * perUnit,
      error: noise * top.share * perUnit,
      time: (top.at - from) * interval,
    });
    at = -1;
  };
  for (let n = first; n < last && peaks.length < most; n++) {
    const now = value(n);
    if (!Number.isFinite(now)) break;
    if (at >= 0 && now * value(at) < 0 && Math.abs(now) > least) close();
    if (Math.abs(now) <= least) continue;
    if (at < 0) begun = n;
    ended = n;
    if (at < 0 || Math.abs(now) > Math.abs(value(at))) at = n;
  }
  if (peaks.length < most && at >= 0 && at < last - 2) close();
  return peaks;
}

/** Part of a half-cycle's samples on either side of its top through which the parabola is laid: a sine is off it there by 1e-3. */
const halfWidth = 0.15;

/**
 * The top of a half-cycle: through three samples where there are no more, and through many so that neither noise nor the steps of the
 * converter raise it, as the greatest of many samples would be.
 *
 * @returns `share`: standard deviation of the value over that of a sample
 */
function topOf(
  value: (n: number) => number,
  { at, begun, ended }: { at: number; begun: number; ended: number },
): { value: Ampere; at: number; share: number } {
  const half = Math.max(1, Math.round(halfWidth * (ended - begun)));
  const once = parabolaTop(value, { at, half });
  // The greatest of noisy samples lies beside the top.
  const centre = Math.min(Math.max(at + Math.round(once.shift), begun + half), Math.max(begun + half, ended - half));
  const top = half > 1 ? parabolaTop(value, { at: centre, half }) : once;
  return { value: top.value, at: (half > 1 ? centre : at) + top.shift, share: top.share };
}

/** Least squares over 2·half + 1 samples; shift in samples, never out of them. */
function parabolaTop(
  value: (n: number) => number,
  { at, half }: { at: number; half: number },
): { value: Ampere; shift: number; share: number } {
  let [sum, slope, bend, squares, fourths] = [0, 0, 0, 0, 0];
  for (let x = -half; x <= half; x++) {
    const y = value(at + x);
    sum += y;
    slope += x * y;
    bend += x * x * y;
    squares += x * x;
    fourths += x ** 4;
  }
  const count = 2 * half + 1;
  const determinant = count * fourths - squares * squares;
  const curve = (count * bend - squares * sum) / determinant;
  if (!Number.isFinite(curve) || curve === 0) return { value: value(at), shift: 0, share: 1 };
  const middle = (fourths * sum - squares * bend) / determinant;
  const shift = Math.max(-half, Math.min(half, -slope / squares / (2 * curve)));
  return {
    value: middle + (slope / squares) * shift + curve * shift * shift,
    shift,
    share: Math.sqrt(fourths / determinant),
  };
}
