/** Edges of a channel that hops between two rails, with a state between them. */

export interface RailChange {
  /** In samples; not whole. */
  readonly at: number;
  /** Rail before and after: 1 upper, −1 lower, 0 between them. */
  readonly was: number;
  readonly to: number;
}

/** Samples farther from the middle than this part of the swing are at a rail. */
const atRail = 0.3;
/** Samples between the rails up to which they are a slope. */
const slope = 2;

/** Empty for a channel that stands still. */
export function railChangesOf(samples: Float32Array): readonly RailChange[] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of samples) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  if (!(most > least)) return [];
  const middle = (least + most) / 2;
  const threshold = atRail * (most - least);
  const sideOf = (value: number) => (value > middle + threshold ? 1 : value < middle - threshold ? -1 : 0);
  const changes: RailChange[] = [];
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
    if (pausedFrom >= 0 && i - pausedFrom > slope) {
      if (side !== 0) changes.push({ at: pausedFrom - 0.5, was: side, to: 0 });
      changes.push({ at: i - 0.5, was: 0, to: next });
    } else if (next !== side)
      changes.push({ at: pausedFrom >= 0 ? crossing(samples, i, middle) : i - 0.5, was: side, to: next });
    side = next;
  }
  if (side !== 0 && zeroFrom >= 0 && samples.length - zeroFrom > slope)
    changes.push({ at: zeroFrom - 0.5, was: side, to: 0 });
  return changes;
}

/** Where the line between two neighbours before `after` passes the level. */
export function crossing(samples: Float32Array, after: number, level: number): number {
  let i = after;
  while (i > 0 && (samples[i - 1]! - level) * (samples[i]! - level) > 0) i--;
  if (i === 0) return 0;
  const [a, b] = [samples[i - 1]!, samples[i]!];
  return i - 1 + (level - a) / (b - a);
}
