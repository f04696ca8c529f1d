/** Channels that switch between levels: the gate that is high for the on-time. */
import { crossing } from "./rail-changes.ts";

/** From where a channel is high to where it is low again, in samples; not whole. */
export interface Pulse {
  readonly from: number;
  readonly to: number;
}

/** Samples this near to a level, as a part of the swing, belong to it. */
const near = 0.3;
/** A channel is two-level where this part of its samples is near a level. */
const mostlyNear = 0.9;
/** Hysteresis on either side of the middle, as a part of the swing. */
const hysteresis = 0.15;

interface Levels {
  readonly low: number;
  readonly high: number;
}

/** Means of the lowest and the highest third; undefined where the samples lie between as often. */
function levelsOf(samples: Float32Array): Levels | undefined {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let count = 0;
  const { length } = samples;
  for (let i = 0; i < length; i++) {
    const value = samples[i]!;
    if (value - value !== 0) continue;
    count++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  if (!(most > least)) return undefined;
  const third = (most - least) / 3;
  const low = meanWithin(samples, least, least + third);
  const high = meanWithin(samples, most - third, most);
  const margin = near * (high - low);
  let close = 0;
  for (let i = 0; i < length; i++) {
    const value = samples[i]!;
    if (Math.abs(value - low) < margin || Math.abs(value - high) < margin) close++;
  }
  return close >= mostlyNear * count ? { low, high } : undefined;
}

/** Of the samples from one level to another, both included. */
function meanWithin(samples: Float32Array, from: number, to: number): number {
  let [sum, count] = [0, 0];
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i]!;
    if (!(value >= from && value <= to)) continue;
    sum += value;
    count++;
  }
  return sum / count;
}

/** The pulses of a gate; those that the record cuts are left out. Undefined where the channel is no two-level one. */
export function pulsesOf(samples: Float32Array): readonly Pulse[] | undefined {
  const levels = levelsOf(samples);
  if (levels === undefined) return undefined;
  const { low, high } = levels;
  const middle = (low + high) / 2;
  const reach = hysteresis * (high - low);
  const pulses: Pulse[] = [];
  let up: boolean | undefined;
  let rise: number | undefined;
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i]!;
    if (up !== true && value > middle + reach) {
      if (up === false) rise = crossing(samples, i, middle);
      up = true;
    } else if (up !== false && value < middle - reach) {
      if (rise !== undefined) pulses.push({ from: rise, to: crossing(samples, i, middle) });
      rise = undefined;
      up = false;
    }
  }
  return pulses;
}
