/** Where bursts begin and end: a threshold between the quiet and the loud parts of the envelope, with hysteresis. */
import { quantileOf } from "../../numerics/robust.ts";

export interface Burst {
  /** First and last sample, the last one not included; to a half-cycle. */
  readonly from: number;
  readonly to: number;
  /** Sample about which the envelope is highest, and its height there. */
  readonly peakAt: number;
  readonly peak: number;
  /** The record begins inside it, or ends inside it. */
  readonly cutAtStart: boolean;
  readonly cutAtEnd: boolean;
  /** The next burst began before this one had rung down to the floor. */
  readonly runsIntoNext: boolean;
}

export interface Segments {
  readonly bursts: readonly Burst[];
  /** Envelope of the quiet parts; 0 where the record has none. */
  readonly floor: number;
  readonly peak: number;
  /** True where the record has quiet parts to set bursts apart. */
  readonly quiet: boolean;
}

/** Blocks are half cycles: gaps of up to this many inside a burst are notches of the beat. */
const notchBlocks = 32;
/** Notches of the beat under drive may be as long as this many half-cycles; a new burst is a rise after a longer decay. */
const longestNotch = 80;
/** What is louder than this part of the peak begins a burst. */
const loudShare = 0.15;
/** A burst begins inside another's ring-down where the envelope grows by this factor. */
const growth = 2.5;

/**
 * Cuts the envelope into bursts.
 *
 * @param span       [blocks] half spans, a block being about half a cycle
 * @param blockSize  samples
 * @param length     samples of the record
 * @param step       of the converter; 0 where none is seen
 */
export function burstsOf(
  span: Float32Array,
  { blockSize, length, step }: { blockSize: number; length: number; step: number },
): Segments {
  const peak = peakOf(span);
  if (!(peak > 0)) return { bursts: [], floor: 0, peak: 0, quiet: false };
  const sampled = span.length > 20_000 ? span.filter((_, i) => i % Math.ceil(span.length / 20_000) === 0) : span;
  const least = quantileOf(sampled, 0.05);
  const quiet = least < 0.2 * peak;
  const floor = quiet ? floorOf(sampled, { least, peak }) : 0;
  const loud = Math.max(3 * floor, loudShare * peak, 2.2 * step);
  // A value that hops between two levels of the converter is quiet.
  const soft = Math.max(1.7 * floor, 0.004 * peak, 1.1 * step);
  if (loud >= peak) return { bursts: [], floor, peak, quiet };
  const bursts: Burst[] = [];
  for (let at = 0; at < span.length; ) {
    if (span[at]! < loud) {
      at++;
      continue;
    }
    const one = burstFrom(span, at, { loud, soft, earliest: bursts.at(-1)?.to ?? 0, blockSize, length });
    bursts.push(one.burst);
    at = one.next;
  }
  return { bursts, floor, peak, quiet };
}

/** Highest of what stands for three blocks: one wild sample is no burst. */
function peakOf(span: Float32Array): number {
  let most = 0;
  for (let i = 1; i + 1 < span.length; i++) most = Math.max(most, Math.min(span[i - 1]!, span[i]!, span[i + 1]!));
  return most;
}

/** Median of the blocks that are near the least: what noise spans. */
function floorOf(sampled: Float32Array, { least, peak }: { least: number; peak: number }): number {
  const near = sampled.filter((value) => value <= Math.max(3 * least, 0.01 * peak));
  return quantileOf(near, 0.5);
}

function burstFrom(
  span: Float32Array,
  at: number,
  {
    loud,
    soft,
    earliest,
    blockSize,
    length,
  }: { loud: number; soft: number; earliest: number; blockSize: number; length: number },
): { burst: Burst; next: number } {
  const firstAllowed = Math.ceil(earliest / blockSize);
  let start = at;
  while (start > firstAllowed && span[start - 1]! >= soft) start--;
  let peakAt = at;
  let softFrom = -1;
  let end = span.length;
  let next = span.length;
  let runsIntoNext = false;
  // The greatest span over the last blocks hides the notches of a beat; its least since the peak shows a new rise.
  const trail = new Trail(longestNotch);
  let lowest = Number.POSITIVE_INFINITY;
  for (let block = at; block < span.length; block++) {
    const value = span[block]!;
    const held = trail.push(value);
    if (held < lowest && block - at >= longestNotch) lowest = held;
    if (value > loud && value > growth * lowest) {
      runsIntoNext = true;
      end = riseFrom(span, block, lowest);
      next = block;
      break;
    }
    if (value > span[peakAt]!) peakAt = block;
    if (value >= soft) softFrom = -1;
    else if (softFrom < 0) softFrom = block;
    if (softFrom >= 0 && block - softFrom >= notchBlocks) {
      end = softFrom;
      next = block;
      break;
    }
  }
  // Up to the last block of the record it may have rung down just so.
  if (end === span.length && softFrom >= 0) end = softFrom;
  return {
    next: Math.max(next, at + 1),
    burst: {
      from: start * blockSize,
      to: Math.min(length, end * blockSize),
      peakAt: Math.min(length - 1, Math.round((peakAt + 1) * blockSize)),
      peak: span[peakAt]!,
      cutAtStart: start <= 1,
      cutAtEnd: end >= span.length - 1,
      runsIntoNext,
    },
  };
}

/** Block at which the rise that reached `block` began. */
function riseFrom(span: Float32Array, block: number, lowest: number): number {
  let start = block;
  while (start > 0 && span[start - 1]! > 1.15 * lowest && block - start < notchBlocks) start--;
  return start;
}

/** Greatest of the last few values: those that a later one has not outgrown, in their order, in a ring. */
class Trail {
  private readonly values: Float32Array;
  private readonly places: Int32Array;
  private count = 0;
  private oldest = 0;
  private held = 0;

  constructor(size: number) {
    this.values = new Float32Array(size);
    this.places = new Int32Array(size);
  }

  push(value: number): number {
    const { values, places } = this;
    const size = values.length;
    if (this.held > 0 && places[this.oldest]! <= this.count - size) {
      this.oldest = (this.oldest + 1) % size;
      this.held--;
    }
    while (this.held > 0 && values[(this.oldest + this.held - 1) % size]! <= value) this.held--;
    const free = (this.oldest + this.held) % size;
    values[free] = value;
    places[free] = this.count++;
    this.held++;
    return values[this.oldest]!;
  }
}
