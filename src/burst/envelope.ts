/** What is read off the list of half-cycle peaks: envelope, first maximum, notch, ring-down. */
import type { Ampere, Hertz, Second } from "../units/si.ts";
import type { Lobe } from "./account.ts";

export interface EnvelopePoint {
  readonly time: Second;
  readonly current: Ampere;
}

/** Stretches shorter than this share of the secondary's period, or lower than this share of the greatest peak, are no half-cycles. */
const shortest = 0.05;
const lowest = 1e-4;
/** Half-cycles that a ring-down must show before its decay and frequency are read. */
const leastHalfCycles = 6;

/**
 * Peak of every half-cycle of the primary current up to the end of the drive.
 * @param period  [s] of the secondary alone
 */
export function envelopeOf({
  lobes,
  period,
  greatest,
  until,
}: {
  lobes: readonly Lobe[];
  period: Second;
  greatest: Ampere;
  until: Second;
}): EnvelopePoint[] {
  return lobes
    .filter(({ from, to, peak }) => to - from > shortest * period && peak > lowest * greatest)
    .filter(({ time }) => time <= until)
    .map(({ time, peak }) => ({ time, current: peak }));
}

/** First inner point that is not below the one before it and above the one after it. */
export function firstMaximum(envelope: readonly EnvelopePoint[]): { index: number; point: EnvelopePoint } | undefined {
  return innerPoint(envelope, 1, 1);
}

/** First inner point after `index` that is not above the one before it and below the one after it. */
export function firstMinimumAfter(envelope: readonly EnvelopePoint[], index: number): EnvelopePoint | undefined {
  return innerPoint(envelope, index + 1, -1)?.point;
}

function innerPoint(
  envelope: readonly EnvelopePoint[],
  from: number,
  sense: 1 | -1,
): { index: number; point: EnvelopePoint } | undefined {
  for (let index = from; index < envelope.length - 1; index++) {
    const point = envelope[index]!;
    const rises = sense * (point.current - envelope[index - 1]!.current) >= 0;
    const falls = sense * (point.current - envelope[index + 1]!.current) > 0;
    if (rises && falls) return { index, point };
  }
  return undefined;
}

/**
 * Decay time and frequency of a free ring-down from its half-cycle peaks: −1/slope of the straight line of least squares through
 * the logarithms of the peaks, and half the rate of the peaks.
 * @param lobes  those after the drive has ended
 * @param after  [s], earlier peaks are left out
 * @returns undefined with fewer than six peaks
 */
export function ringdownOf({
  lobes,
  after,
}: {
  lobes: readonly Lobe[];
  after: Second;
}): { decayTime: Second; frequency: Hertz } | undefined {
  const peaks = lobes.filter(({ time, peak }) => time > after && peak > 0);
  const count = peaks.length;
  if (count < leastHalfCycles) return undefined;
  const origin = peaks[0]!.time;
  const span = peaks[count - 1]!.time - origin;
  let meanTime = 0;
  let meanLog = 0;
  for (const { time, peak } of peaks) {
    meanTime += (time - origin) / count;
    meanLog += Math.log(peak) / count;
  }
  let covariance = 0;
  let variance = 0;
  for (const { time, peak } of peaks) {
    covariance += (time - origin - meanTime) * (Math.log(peak) - meanLog);
    variance += (time - origin - meanTime) ** 2;
  }
  const decayTime = -variance / covariance;
  if (!(Number.isFinite(decayTime) && span > 0)) return undefined;
  return { decayTime, frequency: (count - 1) / (2 * span) };
}
