/** A bridge's output: when it was driven, and when it changed from rail to rail meanwhile. */
import { medianOf, quantileOf } from "../../numerics/robust.ts";
import { type RailChange, railChangesOf } from "./rail-changes.ts";
import type { Pulse } from "./two-level.ts";

/** One burst of a bridge's output, in samples. */
export interface BridgeBurst extends Pulse {
  /** Changes from rail to rail between start and end. */
  readonly commutations: readonly number[];
  /** Mean time from the first to the last edge of a commutation: with dead time the output may hop back in between. */
  readonly unsettled: number;
  /** False where the record begins inside the drive. */
  readonly startSeen: boolean;
  /** False where the output shows no edge at the end: then half a cycle is added for it. */
  readonly endSeen: boolean;
  /** True where the record ends inside the drive. */
  readonly cutAtEnd: boolean;
}

/** All edges of one change: dead time lets the output hop back and forth before it stays. */
interface Change {
  readonly first: number;
  readonly last: number;
  /** Rail before and after: 1, −1, or 0 between them. */
  readonly was: number;
  readonly to: number;
}

/** A change while its edges are gathered. */
type Gathering = { -readonly [K in keyof Change]: Change[K] };

/** Edges closer than this part of a half-cycle are one change. */
const together = 0.25;
/** A driven half-cycle is as long as this many usual ones. */
const shortest = 0.72;
const longest = 1.6;
/** A pause of this many usual half-cycles ends a burst; as many may be left out of a drive. */
const pause = 4;
/** How far a drive that goes on may be from the clock of its half-cycles. */
const offClock = 0.3;
/** Part of the intervals between edges, by number, that are no half-cycles: two of three are dead time where the output hops back. */
const halfCycleShare = 0.8;

/**
 * Bursts of a bridge's output. Empty where it does not hop between rails.
 *
 * After the drive the output floats: the diodes put it at the rail against the current, where it was with the current before, so that its
 * changes go on half a cycle off the drive's, until the tank's voltage no longer reaches the rails. Only changes on the drive's clock count.
 *
 * Without the primary's current a feedback that slips by most of a half-cycle, as in a null of its current, passes for the end.
 *
 * @param current       primary current of the same record, in any unit and sense: it tells a bridge that gives from one that takes back
 * @param beginsAtRest  the record's first sample is known to be the drive's first
 */
export function bridgeBurstsOf(
  samples: Float32Array,
  { current, beginsAtRest = false }: { current?: Float32Array; beginsAtRest?: boolean } = {},
): readonly BridgeBurst[] {
  const edges = railChangesOf(samples);
  if (edges.length < 4) return [];
  const gaps = new Float64Array(edges.length - 1);
  for (let i = 0; i < gaps.length; i++) gaps[i] = edges[i + 1]!.at - edges[i]!.at;
  const half = quantileOf(gaps, Math.floor(halfCycleShare * (gaps.length - 1)) / (gaps.length - 1));
  const changes = changesOf(edges, half);
  const drives = current === undefined ? () => false : driving(samples, current);
  return grouped(changes, half).flatMap(
    (group) => burstOf(group, { beginsAtRest, length: samples.length, drives }) ?? [],
  );
}

/** Edges close together are one change. */
function changesOf(edges: readonly RailChange[], half: number): readonly Change[] {
  const changes: Gathering[] = [];
  for (const { at, was, to } of edges) {
    const open = changes[changes.length - 1];
    if (open !== undefined && at - open.last < together * half) {
      // A slope of several samples stops between the rails: the change is in its middle.
      if (open.to === 0 && open.last === open.first && to === -open.was) open.first = (open.first + at) / 2;
      open.last = Math.max(open.first, at);
      open.to = to;
    } else changes.push({ first: at, last: at, was, to });
  }
  return changes;
}

/** Whether the bridge gives energy in the second stretch as it does in the first. */
type Drives = (known: Pulse, asked: Pulse) => boolean;

/** Share of the apparent power that must flow for the bridge to be driving. */
const givesShare = 0.2;

function driving(samples: Float32Array, current: Float32Array): Drives {
  const flow = ({ from, to }: Pulse) => {
    let [mean, real, apparent] = [0, 0, 0];
    const [first, end] = [Math.max(0, Math.ceil(from)), Math.min(samples.length, Math.floor(to))];
    for (let i = first; i < end; i++) mean += current[i]! / (end - first);
    for (let i = first; i < end; i++) {
      const power = samples[i]! * (current[i]! - mean);
      real += power;
      apparent += Math.abs(power);
    }
    return apparent > 0 ? { share: real / apparent, size: apparent / (end - first) } : { share: 0, size: 0 };
  };
  return (known, asked) => {
    const [before, after] = [flow(known), flow(asked)];
    return after.share * Math.sign(before.share) > givesShare && after.size > leastSize * before.size;
  };
}

/** Apparent power below this part of the drive's is noise. */
const leastSize = 0.02;

function grouped(changes: readonly Change[], half: number): readonly (readonly Change[])[] {
  const groups: (readonly Change[])[] = [];
  let from = 0;
  for (let i = 1; i <= changes.length; i++) {
    if (i < changes.length && changes[i]!.first - changes[i - 1]!.last <= (pause + 0.5) * half) continue;
    groups.push(changes.slice(from, i));
    from = i;
  }
  return groups;
}

function burstOf(
  group: readonly Change[],
  { beginsAtRest, length, drives }: { beginsAtRest: boolean; length: number; drives: Drives },
): BridgeBurst | undefined {
  const net = group.filter(({ was, to }) => was !== to && to !== 0);
  const early = net.slice(0, Math.max(5, Math.ceil(net.length / 2)));
  if (early.length < 4) return undefined;
  const half = medianOf(early.slice(1).map(({ first }, i) => first - early[i]!.first));
  const head = group[0]!;
  const cut = head.was !== 0 && head.first < longest * half;
  let level = cut ? head.was : head.to;
  let last = cut ? head.first - half : head.first;
  const from = cut && beginsAtRest ? 0 : head.first;
  const commutations: number[] = [];
  let unsettled = 0;
  let end: number | undefined;
  let zeroFrom: number | undefined;
  for (const { first, last: settled, was, to } of cut ? group : group.slice(1)) {
    const gap = (first - last) / half;
    if (to === 0 && was !== 0) {
      // Whether it ends here shows by what follows.
      zeroFrom = first;
      continue;
    }
    const count = Math.max(1, Math.round(gap));
    const onClock =
      zeroFrom === undefined
        ? to === -level && was !== to && gap > shortest && gap < longest
        : to === level * (-1) ** count && count <= pause && Math.abs(gap - count) < offClock;
    if (!onClock && drives({ from, to: last }, { from: first, to: first + 2 * half })) {
      if (to !== -level) continue;
    } else if (!onClock) {
      end = zeroFrom ?? (gap >= longest ? last + half : first);
      break;
    }
    const steps = onClock && zeroFrom !== undefined ? count : 1;
    for (let n = 1; n <= steps; n++) commutations.push(last + ((first - last) * n) / steps);
    unsettled += steps * (settled - first);
    last = first;
    level = to;
    zeroFrom = undefined;
  }
  if (commutations.length < 3) return undefined;
  const found = end ?? zeroFrom;
  return {
    from,
    to: found ?? Math.min(length, last + half),
    commutations,
    unsettled: unsettled / commutations.length,
    startSeen: !cut || beginsAtRest,
    endSeen: found !== undefined && found !== last + half,
    cutAtEnd: found === undefined && length - last < longest * half,
  };
}
