/** Channels that switch between levels: the gate that is high for the on-time, the bridge that hops from rail to rail. */
import { medianOf } from "../../numerics/robust.ts";

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
  for (const value of samples) {
    if (value - value !== 0) continue;
    count++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  if (!(most > least)) return undefined;
  const third = (most - least) / 3;
  const [bottom, top] = [
    { sum: 0, count: 0 },
    { sum: 0, count: 0 },
  ];
  for (const value of samples) {
    if (value < least + third) {
      bottom.sum += value;
      bottom.count++;
    } else if (value > most - third) {
      top.sum += value;
      top.count++;
    }
  }
  if (bottom.count === 0 || top.count === 0) return undefined;
  const [low, high] = [bottom.sum / bottom.count, top.sum / top.count];
  const margin = near * (high - low);
  let close = 0;
  for (const value of samples) if (Math.abs(value - low) < margin || Math.abs(value - high) < margin) close++;
  return close >= mostlyNear * count ? { low, high } : undefined;
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

/** Where the line between two neighbours before `after` passes the level. */
function crossing(samples: Float32Array, after: number, level: number): number {
  let i = after;
  while (i > 0 && (samples[i - 1]! - level) * (samples[i]! - level) > 0) i--;
  if (i === 0) return 0;
  const [a, b] = [samples[i - 1]!, samples[i]!];
  return i - 1 + (level - a) / (b - a);
}

/** One burst of a bridge's output: its first and last change, in samples. */
export interface BridgeBurst extends Pulse {
  /** Changes from rail to rail between start and end. */
  readonly commutations: readonly number[];
  /** False where the output stays at a rail after the last change: then half a cycle is added for the end. */
  readonly endSeen: boolean;
}

/** A pause of this many usual half-cycles ends a burst. */
const pause = 4;

/** Bursts of a bridge's output. Empty where it does not hop between rails. */
export function bridgeBurstsOf(samples: Float32Array): readonly BridgeBurst[] {
  const range = samples.reduce(
    ({ least, most }, value) =>
      value - value === 0 ? { least: Math.min(least, value), most: Math.max(most, value) } : { least, most },
    { least: Number.POSITIVE_INFINITY, most: Number.NEGATIVE_INFINITY },
  );
  if (!(range.most > range.least)) return [];
  const middle = (range.least + range.most) / 2;
  const threshold = 0.2 * (range.most - range.least);
  // Sign of the rail that the output is at; 0 between the rails.
  const sideOf = (value: number) => (value > middle + threshold ? 1 : value < middle - threshold ? -1 : 0);
  const changes: { at: number; to: number }[] = [];
  let side = sideOf(samples[0] ?? middle);
  let zeroFrom = -1;
  for (let i = 1; i < samples.length; i++) {
    const next = sideOf(samples[i]!);
    if (next === 0) {
      if (zeroFrom < 0) zeroFrom = i;
      continue;
    }
    const pausedFrom = zeroFrom;
    zeroFrom = -1;
    if (next === side) continue;
    // Between the rails for more than two samples is a state of its own, not a slope.
    if (pausedFrom >= 0 && i - pausedFrom > 2) changes.push({ at: pausedFrom - 0.5, to: 0 }, { at: i - 0.5, to: next });
    else changes.push({ at: pausedFrom >= 0 ? crossing(samples, i, middle) : i - 0.5, to: next });
    side = next;
  }
  if (zeroFrom >= 0 && samples.length - zeroFrom > 2) changes.push({ at: zeroFrom - 0.5, to: 0 });
  return grouped(changes);
}

function grouped(changes: readonly { at: number; to: number }[]): readonly BridgeBurst[] {
  if (changes.length < 4) return [];
  const usual = medianOf(changes.slice(1).map(({ at }, i) => at - changes[i]!.at));
  const groups: { at: number; to: number }[][] = [[]];
  for (const [i, change] of changes.entries()) {
    if (i > 0 && change.at - changes[i - 1]!.at > pause * usual) groups.push([]);
    groups[groups.length - 1]!.push(change);
  }
  return groups.flatMap((group) => {
    const [first, last] = [group[0], group[group.length - 1]];
    if (first === undefined || last === undefined || group.length < 4) return [];
    const endSeen = last.to === 0;
    return [
      {
        from: first.at,
        to: endSeen ? last.at : last.at + usual,
        commutations: group.slice(1, endSeen ? -1 : undefined).map(({ at }) => at),
        endSeen,
      },
    ];
  });
}
