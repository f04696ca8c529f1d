/** The hardest burst that the interrupter can let through, for findings that must hold whatever the knob stands at. */
import type { Coil } from "../description/coil.ts";
import type { Hertz, Second } from "../units/si.ts";
import type { BurstSetting } from "../workbench/burst-contract.ts";

export type Limits = NonNullable<NonNullable<Coil["interrupter"]>["limits"]>;

/** Highest rate of bursts of a length. A burst never runs into the next one, whatever the limits say. */
export const rateWithin = ({ rate, duty, gap }: Limits, onTime: Second): Hertz =>
  Math.min(rate, duty / onTime, 1 / (onTime + gap), 0.99 / onTime);

/**
 * The setting at the interrupter's hard limits: its longest burst, at the highest rate that duty, pause and rate limit leave for it.
 *
 * @param setting  what else was moved; it stays
 * @returns undefined where the file gives no limits, or they allow no longer burst and no higher rate than the setting
 */
export function settingAtLimits({ interrupter }: Coil, setting: BurstSetting = {}): BurstSetting | undefined {
  if (interrupter?.limits === undefined) return undefined;
  const { limits } = interrupter;
  const [onTime, rate] = [setting.onTime ?? interrupter.onTime, setting.rate ?? interrupter.rate];
  const longest = Math.max(onTime, limits.onTime);
  const highest = rateWithin(limits, longest);
  if (longest <= onTime && highest <= rate) return undefined;
  return { ...setting, onTime: longest, rate: longest > onTime ? highest : Math.max(rate, highest) };
}

/**
 * The same burst, at the limits where they allow more, if the top never broke out: without a streamer that takes energy, current and voltage grow
 * further. It happens at a first trial, in dry air, after a point has come off.
 *
 * @returns undefined where the setting leaves the streamer out already
 */
export function settingUnlit(coil: Coil, setting: BurstSetting = {}): BurstSetting | undefined {
  if (setting.streamer === false) return undefined;
  return { ...(settingAtLimits(coil, setting) ?? setting), streamer: false };
}

/**
 * Shortest burst that is worth a look [s]: there the rate has reached its own limit, and shorter still only takes away. Between it and the longest
 * a shorter burst that comes more often can leave more in the channel.
 *
 * @returns the longest itself where it may come at the highest rate
 */
export function shortestOfNote({ onTime, rate, duty, gap }: Limits): Second {
  const reached = [duty / rate, 1 / rate - gap].filter((one) => one > 0);
  return Math.min(onTime, ...reached);
}
