/** One burst read: its free decay with the poles, and the edges of its drive. */

import type { ChannelRole } from "../../description/record.ts";
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { burstDrive, type DriveFound } from "./burst-drive.ts";
import type { Burst } from "./bursts.ts";
import type { Converter } from "./converter.ts";
import { driveEnd, driveStart } from "./drive.ts";
import type { Edge } from "./drive-edge.ts";
import type { Usual } from "./drive-search.ts";
import { type FloatingUsual, floatingDrive } from "./floating-drive.ts";
import { type Decay, findDecay } from "./free-part.ts";
import { type FreeDecay, fitDecay, fitTones, guessPole, isLasting, isLine, polesIn } from "./ring-down.ts";
import { type Stretch, stretchOf, varianceOf } from "./stretch.ts";

export interface SignalChannel {
  readonly samples: Float32Array;
  readonly converter: Converter;
  /** Half spans block by block. */
  readonly span: Float32Array;
  readonly blockSize: number;
  /** Rough, as a part of the sample rate. */
  readonly frequency: number;
  /** Envelope of the quiet parts. */
  readonly floor: number;
}

/** An edge of the drive, in samples of the record, with its standard error. */
export interface EdgeFound {
  readonly at: number;
  readonly error: number;
}

/** Start and end of a drive. */
export interface DriveEdges {
  /** Absent where the record begins inside the burst or the burst is a free decay from its start. */
  readonly driveStart?: EdgeFound;
  readonly driveEnd?: EdgeFound;
  /** The channel answers the drive gently, as the secondary does: its edges are less sharp than their errors say. */
  readonly gentle: boolean;
  /** The whole of the drive, where a square explains the burst. */
  readonly drive?: DriveFound;
  /** The bridge was seen to take energy back after the drive. */
  readonly returned?: true;
}

export interface BurstTones extends DriveEdges {
  readonly burst: Burst;
  readonly stretch: Stretch;
  readonly decay: FreeDecay;
  /** Where the fit of the decay begins and ends, in samples of the record. */
  readonly decayFrom: number;
  readonly decayTo: number;
  /** What the fit leaves over is no more than noise: the decay is a sum of steady tones. */
  readonly steady: boolean;
}

/** Values to a cycle that the fits work on. */
const perCycle = 8;
/** A decay of fewer cycles than this is too short to be read. */
const fewestCycles = 3;
/** The same where the record ends before the decay has sunk: from the peak on, and only if it is a sum of steady tones that all die. */
const fewestLoud = 24;
/** Residue, over the noise, of a drive beside which no other is looked for. */
const clearly = 1.4;
/** Cycles before a burst that are looked at. */
const before = 12;
/** Cycles behind it: what stops shows there that it is no decay. */
const behind = 8;
/** Values that a fit stands on at most; longer decays are averaged more coarsely, shown no longer. */
const mostValues = 6000;

/**
 * Undefined where no free decay can be read.
 * @param square  whether a square drive is looked for, which takes the longest where there is none
 * @param alikeOnly  a bridge that floats is looked for only as another burst showed it
 * @param plainFirst  a drive without diodes behind it is tried first, and nothing else where it explains the burst: it takes a fifth of the time
 */
export function readTones(
  signal: SignalChannel,
  burst: Burst,
  {
    role,
    usual,
    floating,
    square,
    plainFirst,
    alikeOnly,
  }: {
    role: ChannelRole;
    usual?: Usual;
    floating?: FloatingUsual;
    square: boolean;
    plainFirst: boolean;
    alikeOnly: boolean;
  },
): BurstTones | undefined {
  const { frequency, converter, samples } = signal;
  const step = Math.max(1, Math.floor(1 / (frequency * perCycle)));
  const cycle = 1 / frequency / step;
  const begin = burst.cutAtStart ? burst.from : burst.from - before * cycle * step;
  const stretch = stretchOf(
    { samples, below: converter.below, above: converter.above },
    {
      from: begin,
      to: Math.min(burst.to + (burst.runsIntoNext ? 0 : behind * cycle * step), Math.max(0, begin) + mostValues * step),
      step,
    },
  );
  const { values } = stretch;
  const placeOf = (sample: number) => (sample - stretch.from) / step;
  const late = Math.min(values.length, Math.max(0, Math.round(placeOf(lastLoud(signal, burst)))));
  const loudToTheEnd = values.length - late < fewestCycles * cycle;
  const from = loudToTheEnd ? Math.round(placeOf(burst.peakAt)) : late;
  if (values.length - from < (loudToTheEnd ? fewestLoud : fewestCycles) * cycle) return undefined;
  const noise = (0.29 * converter.step) / Math.sqrt(step);
  const quiet = burst.cutAtStart
    ? undefined
    : varianceOf(values.subarray(0, Math.max(0, Math.floor(placeOf(burst.from) - 2 * cycle))));
  const found = findDecay(values, { from, cycle, noise, quiet, angular: 2 * Math.PI * frequency * step });
  if (found === undefined || !isDecay(found) || (loudToTheEnd && !found.even)) return undefined;
  const sampleOf = (place: number) => stretch.from + place * step;
  const plain = () =>
    burstDrive(signal, burst, {
      role,
      decay: found,
      step,
      freeFrom: sampleOf(found.freeFrom),
      ...(usual === undefined ? {} : { usual }),
    });
  const first = square && plainFirst ? plain() : undefined;
  // Where both windings ring on there is a short behind the drive and no diodes.
  const returning =
    square &&
    first === undefined &&
    role !== "primaryCurrent" &&
    !(found.fit.terms.length === 2 && found.fit.terms.every(isLasting))
      ? floatingDrive(signal, burst, {
          role,
          alikeOnly,
          free: { decay: found, step, from: sampleOf(found.freeFrom) },
          ...(floating === undefined ? {} : { usual: floating }),
        })
      : undefined;
  const drive =
    first ?? (square && !plainFirst && (returning === undefined || returning.leftOver > clearly) ? plain() : undefined);
  if (returning !== undefined && returning.leftOver < (drive?.leftOver ?? Number.POSITIVE_INFINITY))
    return behindReturn(returning, { burst, stretch, found, cycle });
  if (square && drive === undefined && returning === undefined && role !== "primaryCurrent") {
    // Two tones that last may still be the return of energy where it takes long.
    const whole = floatingDrive(signal, burst, {
      role,
      alikeOnly,
      ...(floating === undefined ? {} : { usual: floating }),
    });
    if (whole !== undefined) return behindReturn(whole, { burst, stretch, found: undefined, cycle });
  }
  if (drive !== undefined) {
    const decayFrom = Math.ceil(placeOf(drive.end.at) + cycle / 2);
    const decay = afterDrive(values.subarray(decayFrom), found);
    if (decay === undefined) return undefined;
    return {
      burst,
      stretch,
      decay,
      decayFrom: sampleOf(decayFrom),
      decayTo: sampleOf(values.length),
      gentle: false,
      ...edgesOfDrive(drive),
      steady: true,
    };
  }
  const edges = edgesOf({ values, decay: found, freeFrom: found.freeFrom, cycle, burst, start: placeOf(burst.from) });
  const settled = edges.end === undefined ? found.freeFrom : Math.max(edges.end.at + 2 * cycle, found.freeFrom);
  const decayFrom = Math.ceil(settled);
  const decay = fitTones(values.subarray(decayFrom), polesIn(found)) ?? found;
  if (!isDecay(decay)) return undefined;
  const edge = (one: Edge | undefined): EdgeFound | undefined =>
    one === undefined ? undefined : { at: sampleOf(one.at), error: one.error * step };
  const driveStarted = edge(edges.start);
  const driveEnded = edge(edges.end);
  return {
    burst,
    stretch,
    decay,
    decayFrom: sampleOf(decayFrom),
    decayTo: sampleOf(values.length),
    gentle: edges.start !== undefined && typeof edges.start.onset === "number",
    ...(driveStarted === undefined ? {} : { driveStart: driveStarted }),
    ...(driveEnded === undefined ? {} : { driveEnd: driveEnded }),
    steady: quiet === undefined || decay.variance <= misfit ** 2 * expectedOf(decay, { quiet, noise }),
  };
}

/**
 * What rings on once the diodes have given the energy back: the secondary alone.
 * @param found  a decay that was found before, undefined where it was none
 */
function behindReturn(
  drive: DriveFound,
  { burst, stretch, found, cycle }: { burst: Burst; stretch: Stretch; found: Decay | undefined; cycle: number },
): BurstTones | undefined {
  const { values, step } = stretch;
  const first = drive.stopped === undefined ? found?.freeFrom : (drive.stopped - stretch.from) / step + cycle / 2;
  if (first === undefined) return undefined;
  const from = Math.max(0, Math.ceil(first));
  const rest = values.subarray(from);
  if (rest.length < fewestCycles * cycle) return undefined;
  const near = found === undefined ? guessPole(rest, (2 * Math.PI) / cycle) : longest(polesIn(found));
  const alone = fitTones(rest, [near]);
  const decay = alone !== undefined && isDecay(alone) ? alone : found;
  if (decay === undefined) return undefined;
  return {
    burst,
    stretch,
    decay,
    decayFrom: stretch.from + (decay === alone ? from : (found?.freeFrom ?? from)) * step,
    decayTo: stretch.from + values.length * step,
    gentle: false,
    ...edgesOfDrive(drive),
    returned: true,
    steady: true,
  };
}

/** The tone that lasts longest. */
function longest(poles: readonly DampedPole[]): DampedPole {
  return poles.reduce((best, one) => (one.decay < best.decay ? one : best));
}

export function edgesOfDrive(drive: DriveFound): Pick<DriveEdges, "driveStart" | "driveEnd" | "drive"> {
  return { driveStart: drive.start, driveEnd: drive.end, drive };
}

/** The decay from right behind the drive on, where a second tone may show that was too weak later. */
function afterDrive(values: Float64Array, found: FreeDecay): FreeDecay | undefined {
  const [first] = polesIn(found);
  const decay =
    first !== undefined && found.fit.terms.length === 1 ? fitDecay(values, first) : fitTones(values, polesIn(found));
  return decay !== undefined && isDecay(decay) ? decay : isDecay(found) ? found : undefined;
}

/** A fit that leaves this many times what is expected describes no decay of steady tones. */
const misfit = 3;
/** Part of the signal by which a converter may be bent. */
const nonlinear = 0.001;

/** Variance that noise before the burst, the converter's step and its bend explain. */
function expectedOf({ fit }: FreeDecay, { quiet, noise }: { quiet: number; noise: number }): number {
  const size = fit.terms.reduce((sum, { real, imaginary }) => sum + real ** 2 + imaginary ** 2, 0);
  return Math.max(quiet, noise ** 2) + nonlinear ** 2 * size;
}

function isDecay({ fit }: FreeDecay): boolean {
  return fit.terms.every(isLine);
}

/** Last sample about which the envelope still stands above a third of its peak: behind it nothing drives the coil. */
function lastLoud({ span, blockSize, floor }: SignalChannel, { from, to, peak }: Burst): number {
  const level = Math.max(0.3 * peak, Math.min(0.6 * peak, 4 * floor));
  let last = Math.floor(from / blockSize);
  const end = Math.min(span.length, Math.floor(to / blockSize));
  for (let block = last; block < end; block++) if (span[block]! > level) last = block;
  return (last + 1) * blockSize;
}

function edgesOf({
  values,
  decay,
  freeFrom,
  cycle,
  burst,
  start,
}: {
  values: Float64Array;
  decay: FreeDecay;
  freeFrom: number;
  cycle: number;
  burst: Burst;
  start: number;
}): { start?: Edge; end?: Edge } {
  const length = freeFrom - start;
  // Within two cycles of the burst's start nothing was driven: the coil was struck once and rings.
  if (length < 2 * cycle) return {};
  const guard = Math.min(values.length, Math.ceil(freeFrom + 3 * cycle));
  const refit = fitTones(values.subarray(guard), polesIn(decay));
  const free =
    refit !== undefined && isDecay(refit) ? { fit: refit.fit, from: guard } : { fit: decay.fit, from: freeFrom };
  const side = { values, decay: free.fit, decayFrom: free.from, noise: decay.variance, cycle, length };
  const end = driveEnd(side, freeFrom);
  const begin = burst.cutAtStart ? undefined : driveStart(side, start);
  return { ...(end === undefined ? {} : { end }), ...(begin === undefined ? {} : { start: begin }) };
}
