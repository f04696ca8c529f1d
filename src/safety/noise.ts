/** How loud a coil is, and how long an ear may be near it before a published daily dose is full. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Hertz, Metre, Ratio, Second, Watt } from "../units/si.ts";

/** Part of a spark's energy that becomes sound; contested. Source: spark-loudness. */
export const acousticShare = { low: 1e-4, middle: 1e-3, high: 1e-2 } as const;

/** Rules of a daily dose: level [dB(A)] that fills it in 8 h, and what halves the time [dB]. */
export const doseRules = {
  "niosh-98-126": { level: 85, exchange: 3 },
  "osha-1910-95": { level: 90, exchange: 5 },
} as const;
export type DoseRule = keyof typeof doseRules;

/** Where sound spreads to: all round, or into the half-space over a hard floor. */
export type Spread = "free" | "floor";
const spreadLoss = { free: 11, floor: 8 } as const;

/**
 * Level of sound at a distance from a spark that takes a power.
 *
 *   LW = 10·lg(η·P/1 pW),   L = LW − 11 − 20·lg(r)   (−8 over a hard floor)
 *
 * @param power     [W], > 0, into the spark
 * @param share     of it that becomes sound
 * @param distance  [m], > 0
 * @returns         [dB]; the clicks lie at 1–5 kHz, where weighting A adds 0 to 1.3 dB, so it may be read as dB(A)
 * @throws OutOfDomain  an argument is not positive
 * @validity  outside, or near enough that the room's echo does not count; indoors far away it is louder than this
 * @source    definition of sound power; spark-loudness for the share
 */
export function soundLevel({
  power,
  share,
  distance,
  spread,
}: {
  power: Watt;
  share: Ratio;
  distance: Metre;
  spread: Spread;
}): number {
  if (!(power > 0 && share > 0 && distance > 0)) {
    throw new OutOfDomain(
      "soundLevel",
      `power, share and distance must be positive, got ${power} W, ${share}, ${distance} m`,
    );
  }
  return 10 * Math.log10((share * power) / 1e-12) - spreadLoss[spread] - 20 * Math.log10(distance);
}

/**
 * Time at a level that fills a published daily dose.
 *
 *   T = 8 h / 2^((L − level)/exchange)
 *
 * @param level  [dB(A)]
 * @returns      [s]
 * @source niosh-98-126 (85 dB(A), 3 dB); osha-1910-95 (90 dB(A), 5 dB)
 */
export function timeToFullDose(level: number, rule: DoseRule = "niosh-98-126"): Second {
  const { level: full, exchange } = doseRules[rule];
  return (8 * 3600) / 2 ** ((level - full) / exchange);
}

/**
 * Distance at which a time fills the daily dose, from the level at 1 m and 6 dB less for each doubling.
 * @param levelAt1m [dB(A)], of the spread that is taken
 * @param duration  [s], > 0
 * @returns         [m]
 * @throws OutOfDomain  the duration is not positive
 */
export function distanceOfFullDose({ levelAt1m, duration }: { levelAt1m: number; duration: Second }): Metre {
  if (!(duration > 0)) throw new OutOfDomain("distanceOfFullDose", `duration must be positive, got ${duration} s`);
  const { level, exchange } = doseRules["niosh-98-126"];
  return 10 ** ((levelAt1m - level - exchange * Math.log2((8 * 3600) / duration)) / 20);
}

/**
 * How far the peak of clicks lies above their mean level: 10·lg(1/(pulse × rate)), rectangular pulses.
 * @returns [dB], never below 0
 */
export function crestOfClicks({ pulse, rate }: { pulse: Second; rate: Hertz }): number {
  return 10 * Math.log10(Math.max(1, 1 / (pulse * rate)));
}
