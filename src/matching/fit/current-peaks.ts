/** Peaks of the half-cycles of a primary current at the start of a burst. */
import type { Ampere, Second } from "../../units/si.ts";
import type { HalfCyclePeak } from "./observed.ts";

/** Peaks below this part of the greatest, or this many times the noise, are no half-cycles. */
const [leastShare, leastNoises] = [0.02, 3];

/**
 * Peak of each half-cycle, by a parabola through its greatest samples; a half-cycle lies between two changes of sign.
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
  let at = -1;
  const close = (): void => {
    if (at < 0) return;
    const top = topAt({ before: value(at - 1), at: value(at), after: value(at + 1) });
    // The side of a half-cycle before the drive's start belongs to no half-cycle of this burst.
    peaks.push({
      current: Math.abs(top.value) * perUnit,
      error: noise * perUnit,
      time: (at + top.shift - from) * interval,
    });
    at = -1;
  };
  for (let n = first; n < last && peaks.length < most; n++) {
    const now = value(n);
    if (!Number.isFinite(now)) break;
    if (at >= 0 && now * value(at) < 0 && Math.abs(now) > least) close();
    if (Math.abs(now) > least && (at < 0 || Math.abs(now) > Math.abs(value(at)))) at = n;
  }
  if (peaks.length < most && at >= 0 && at < last - 2) close();
  return peaks;
}

/** The top of the parabola through three samples, shift in samples. */
function topAt({ before, at, after }: { before: number; at: number; after: number }): {
  value: Ampere;
  shift: number;
} {
  const bend = before - 2 * at + after;
  if (!Number.isFinite(bend) || bend === 0) return { value: at, shift: 0 };
  const shift = Math.max(-1, Math.min(1, (before - after) / (2 * bend)));
  return { value: at - ((before - after) * shift) / 4, shift };
}
