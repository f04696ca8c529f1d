/** What a record says by itself: repetition, on-time, carrier, poles and decay, with the interval of each, and what is wrong with it. */
import type { Finding } from "../catalogue/finding.ts";
import type { BenchRecord, Channel, ChannelRole } from "../description/record.ts";
import { allSteps } from "../numerics/steps.ts";
import { bridgeBurstsOf } from "./reading/bridge-output.ts";
import {
  type ChannelReading,
  type EnvelopeTrace,
  envelopeTrace,
  fittedCarrier,
  followingCarrier,
  readChannel,
  signalCarrier,
  steadyTones,
} from "./reading/channel.ts";
import { type DrivenPoles, drivenPoles } from "./reading/driven-poles.ts";
import { type Estimate, estimateOf, type Measured } from "./reading/estimate.ts";
import type { Read } from "./reading/finding-words.ts";
import { findingsOf } from "./reading/findings.ts";
import { lastingPoles } from "./reading/lasting.ts";
import { bridgeCarrier, bridgeOnTime, gateOnTime, type OnTime, signalOnTime } from "./reading/on-time.ts";
import type { Poles } from "./reading/poles.ts";
import { type Repetition, repetitionOf, startsOf } from "./reading/repetition.ts";
import { soundRepetition } from "./reading/sound.ts";
import { linesOf, type SpectralLine, type Spectrum, spectrumOf } from "./reading/spectrum.ts";
import { type Pulse, pulsesOf } from "./reading/two-level.ts";

/** A figure and the channel that it was read from, by its place in the record. */
export interface FromChannel<T> {
  readonly channel: number;
  readonly is: T;
}

/** A burst on the record's own time [s]. */
export interface BurstRead {
  readonly start: number;
  /** Where the drive ended, where that could be read. */
  readonly driveEnd?: number;
  /** Where it has sunk into the noise, or the record ends. */
  readonly end: number;
  /** Greatest amplitude, in the channel's unit. */
  readonly peak: number;
  readonly cutAtStart: boolean;
  readonly cutAtEnd: boolean;
}

export interface RecordReading {
  /** The channel that bursts, envelope and spectrum are of; undefined where none has a signal. */
  readonly channel: number | undefined;
  readonly bursts: readonly BurstRead[];
  readonly repetition?: FromChannel<Repetition>;
  readonly onTime?: FromChannel<OnTime>;
  readonly carrier?: FromChannel<Estimate>;
  /** The primary's current is explained by a drive of one frequency, the carrier, as a generator gives it. */
  readonly evenly?: true;
  /** Of the free decay. */
  readonly poles?: FromChannel<Poles>;
  /** The secondary's own frequency, at which the bridge sees no admittance, from the drive; where the free decay has both poles [Hz]. */
  readonly secondary?: FromChannel<Estimate>;
  /** Both poles from the driven part of a burst, where the free decay has not both. */
  readonly driven?: FromChannel<DrivenPoles>;
  /** Of a steady signal with two tones: lower, upper. */
  readonly steady?: FromChannel<readonly Estimate[]>;
  /** Of the strongest burst. */
  readonly envelope?: EnvelopeTrace;
  readonly spectrum?: Spectrum;
  readonly lines: readonly SpectralLine[];
  readonly findings: readonly Finding[];
}

/** Roles in the order in which a channel is preferred for what it shows best. */
const swinging: readonly ChannelRole[] = ["primaryCurrent", "unknown", "pickupLoop"];
/** Swinging channels that are read; the rest of a record of many is left alone. */
const mostChannels = 4;

/**
 * Reads a record: no model of the coil is used.
 *
 * Gate and bridge decide the on-time where the record has them; the primary current comes before other channels for what the drive
 * does, the channel with the surest decay gives the poles. Intervals hold 90 %, see docs/captures.md.
 */
export function readRecord(record: BenchRecord): RecordReading {
  return allSteps(readingSteps(record));
}

/** The same step by step, each with the channel and the burst that it looks at. */
export function* readingSteps(record: BenchRecord): Generator<string, RecordReading> {
  const { interval, start } = record;
  let square = true;
  let plain = false;
  const read: Read[] = [];
  for (const { channel, index } of swingingChannels(record)) {
    const reading = yield* readChannel(channel, { interval, square, plain });
    if (reading === undefined) continue;
    // What drives one channel drives them all.
    if (reading.tones.length > 1 && reading.tones.every(({ drive }) => drive === undefined)) square = false;
    if (reading.drives.some(({ drive }) => drive?.usual !== undefined)) plain = true;
    if (reading.drives.some(({ drive, returned }) => returned && drive !== undefined)) square = false;
    read.push({ index, channel, reading });
  }
  yield "drives and repetition";
  const main = read[0];
  const levels = twoLevelChannels(record);
  const onTime = bestOnTime(levels, read, interval);
  const repetition = bestRepetition(record, levels, read);
  const poles = surestPoles(read);
  const drives = onTime?.is.drives ?? [];
  const carrier = bestCarrier({
    levels,
    main,
    drives: drives.length > 0 ? drives : drivenParts(main),
    poles,
    interval,
  });
  const steady =
    main !== undefined && !main.reading.segments.quiet && poles === undefined ? steadyOf(main, interval) : undefined;
  const bothRing = lastingPoles(poles?.is).length > 1;
  const driven = bothRing ? undefined : bothFromDrive(read, onTime, interval);
  const secondary = bothRing ? secondaryByDrive(main, interval) : undefined;
  const strongest = main?.reading.segments.bursts.reduce(
    (best, one) => (one.peak > best.peak ? one : best),
    main.reading.segments.bursts[0]!,
  );
  const spectrum =
    main === undefined
      ? undefined
      : spectrumOf(main.channel.samples, main.reading.segments.bursts, {
          interval,
          frequency: main.reading.rough.frequency,
        });
  const carrierFound =
    carrier ?? (steady?.is[0] === undefined ? undefined : { channel: steady.channel, is: steady.is[0] });
  const lines =
    main !== undefined && strongest !== undefined && repetition !== undefined && carrierFound !== undefined
      ? linesOf(main.channel.samples, strongest, {
          interval,
          carrier: carrierFound.is.value,
          rate: repetition.is.rate.value,
        })
      : [];
  const reading: Omit<RecordReading, "findings"> = {
    channel: main?.index,
    bursts: main === undefined ? [] : burstsRead(main.reading, drives, record),
    ...(repetition === undefined ? {} : { repetition }),
    ...(onTime === undefined ? {} : { onTime }),
    ...(carrierFound === undefined ? {} : { carrier: carrierFound }),
    ...(carrier !== undefined && isEven(main) ? { evenly: true } : {}),
    ...(poles === undefined ? {} : { poles }),
    ...(driven === undefined ? {} : { driven }),
    ...(secondary === undefined ? {} : { secondary }),
    ...(steady === undefined
      ? {}
      : { steady: { channel: steady.channel, is: [...steady.is].sort((a, b) => a.value - b.value) } }),
    ...(main === undefined || strongest === undefined
      ? {}
      : { envelope: envelopeTrace(main.reading, strongest, { start, interval }) }),
    ...(spectrum === undefined ? {} : { spectrum }),
    lines,
  };
  return { ...reading, findings: findingsOf(record, reading, read) };
}

/** Those that are read, the most telling first. */
function swingingChannels({ channels }: BenchRecord): readonly { channel: Channel; index: number }[] {
  return channels
    .map((channel, index) => ({ channel, index }))
    .filter(({ channel }) => swinging.includes(channel.role))
    .sort((a, b) => swinging.indexOf(a.channel.role) - swinging.indexOf(b.channel.role))
    .slice(0, mostChannels);
}

interface TwoLevel {
  readonly gates: readonly { index: number; pulses: readonly Pulse[] }[];
  readonly bridges: readonly { index: number; bursts: ReturnType<typeof bridgeBurstsOf> }[];
}

/** A primary current that is still small where the record begins: the first sample is the drive's first. */
function beginsAtRest(samples: Float32Array): boolean {
  let peak = 0;
  for (let i = 0; i < samples.length; i++) peak = Math.max(peak, Math.abs(samples[i]!));
  const turn = samples.findIndex((value, i) => i > 1 && value * samples[1]! < 0);
  const first = samples.subarray(0, Math.max(2, turn)).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return Math.abs(samples[0]!) < restingShare * peak && first < 0.5 * peak;
}

/** Of the current's peak. */
const restingShare = 0.03;

function twoLevelChannels(record: BenchRecord): TwoLevel {
  const { channels } = record;
  const current = channels.find(({ role }) => role === "primaryCurrent")?.samples;
  const atRest = current !== undefined && beginsAtRest(current);
  return {
    gates: channels.flatMap(({ role, samples }, index) => {
      const pulses = role === "gate" ? pulsesOf(samples) : undefined;
      return pulses === undefined || pulses.length === 0 ? [] : [{ index, pulses }];
    }),
    bridges: channels.flatMap(({ role, samples }, index) => {
      const bursts =
        role === "bridgeOutput"
          ? bridgeBurstsOf(samples, { ...(current === undefined ? {} : { current }), beginsAtRest: atRest })
          : [];
      return bursts.length === 0 ? [] : [{ index, bursts }];
    }),
  };
}

function bestOnTime(
  { gates, bridges }: TwoLevel,
  read: readonly Read[],
  interval: number,
): FromChannel<OnTime> | undefined {
  const [gate, bridge] = [gates[0], bridges[0]];
  if (gate !== undefined) return { channel: gate.index, is: gateOnTime(gate.pulses, interval) };
  const bridged = bridge === undefined ? undefined : bridgeOnTime(bridge.bursts, interval);
  if (bridge !== undefined && bridged !== undefined) return { channel: bridge.index, is: bridged };
  for (const { index, reading } of read) {
    const found = signalOnTime(reading.drives, { interval, frequency: reading.rough.frequency });
    if (found !== undefined) return { channel: index, is: found };
  }
  return undefined;
}

function bestRepetition(
  record: BenchRecord,
  { gates, bridges }: TwoLevel,
  read: readonly Read[],
): FromChannel<Repetition> | undefined {
  const { interval } = record;
  // An edge lies anywhere between two samples.
  const error = 1 / Math.sqrt(12);
  const found = [
    ...gates.map(({ index, pulses }) => ({ index, starts: pulses.map(({ from }) => ({ at: from, error })), cycle: 0 })),
    ...bridges.map(({ index, bursts }) => ({
      index,
      starts: bursts.map(({ from }) => ({ at: from, error })),
      cycle: 0,
    })),
    ...read.map(({ index, reading }) => ({
      index,
      starts: startsOf(reading.signal, reading.segments.bursts),
      cycle: 1 / reading.rough.frequency,
    })),
  ].flatMap(({ index, starts, cycle }): FromChannel<Repetition>[] => {
    const is = repetitionOf(starts, { interval, cycle });
    return is === undefined ? [] : [{ channel: index, is }];
  });
  if (found[0] !== undefined) return narrowest(found[0], found);
  for (const [index, { role, samples }] of record.channels.entries()) {
    if (role !== "audio") continue;
    const found = soundRepetition(samples, interval);
    if (found !== undefined) return { channel: index, is: found };
  }
  return undefined;
}

/** Edges between two samples are coarse; of channels that agree with the surest kind the one that knows the rate best is taken. */
function narrowest(first: FromChannel<Repetition>, all: readonly FromChannel<Repetition>[]): FromChannel<Repetition> {
  return all
    .filter(({ is }) => is.bursts >= first.is.bursts)
    .reduce((best, one) => (narrows(one.is.rate, best.is.rate) ? one : best), first);
}

/** Whether one agrees with the other, as ninety-nine pairs in a hundred do, and knows it better. */
function narrows(one: Estimate, other: Estimate): boolean {
  const [own, its] = [one.high - one.low, other.high - other.low];
  return own < its && Math.abs(one.value - other.value) <= 0.75 * Math.hypot(own, its);
}

/** Where the channel that is read is no free decay: driven, or still giving energy back. */
function drivenParts(main: Read | undefined): readonly Pulse[] {
  return (main?.reading.tones ?? []).flatMap(({ driveStart, driveEnd }) =>
    driveStart === undefined || driveEnd === undefined || driveEnd.at <= driveStart.at
      ? []
      : [{ from: driveStart.at, to: driveEnd.at }],
  );
}

/** Where most of the bursts that were explained were driven evenly. A loop alone does not tell. */
function isEven(main: Read | undefined): boolean {
  const found = main?.channel.role === "primaryCurrent" ? main.reading.drives.flatMap(({ drive }) => drive ?? []) : [];
  return found.length > 0 && 2 * found.filter(({ usual }) => usual?.by === "even").length > found.length;
}

/** From the surest burst: the others may begin on what the one before left ringing. */
function secondaryByDrive(main: Read | undefined, interval: number): FromChannel<Estimate> | undefined {
  if (main?.channel.role !== "primaryCurrent") return undefined;
  const found = main.reading.drives.flatMap(({ drive }) => drive?.secondary ?? []);
  const [surest] = found.sort((a, b) => a.error - b.error);
  if (surest === undefined) return undefined;
  const { value, error } = surest;
  const spread = Math.hypot(error, zeroDoubt * value) / interval;
  return { channel: main.index, is: estimateOf({ value: value / interval, error: spread, freedom: 60 }) };
}

/** What a bridge that is no perfect square, losses and higher modes may move the zero of the admittance by, in parts. */
const zeroDoubt = 5e-4;

/** What the tank's current tells of both poles while it is driven. */
function bothFromDrive(
  read: readonly Read[],
  onTime: FromChannel<OnTime> | undefined,
  interval: number,
): FromChannel<DrivenPoles> | undefined {
  const current = read.find(({ channel }) => channel.role === "primaryCurrent");
  if (current === undefined) return undefined;
  const is = drivenPoles(current.reading, {
    drives: onTime?.is.by === "signal" ? [] : (onTime?.is.drives ?? []),
    interval,
  });
  return is === undefined ? undefined : { channel: current.index, is };
}

/** The channel whose strongest pole has the narrowest decay. */
function surestPoles(read: readonly Read[]): FromChannel<Poles> | undefined {
  const doubt = (poles: Poles) =>
    Math.min(...poles.poles.map(({ decayTime }) => (decayTime.high - decayTime.low) / decayTime.value));
  return read
    .flatMap(({ index, reading }) => (reading.poles === undefined ? [] : [{ channel: index, is: reading.poles }]))
    .reduce<FromChannel<Poles> | undefined>(
      (best, one) =>
        best === undefined ||
        one.is.poles.length > best.is.poles.length ||
        (one.is.poles.length === best.is.poles.length && doubt(one.is) < doubt(best.is))
          ? one
          : best,
      undefined,
    );
}

function bestCarrier({
  levels,
  main,
  drives,
  poles,
  interval,
}: {
  levels: TwoLevel;
  main: Read | undefined;
  drives: readonly Pulse[];
  poles: FromChannel<Poles> | undefined;
  interval: number;
}): FromChannel<Estimate> | undefined {
  const bridge = levels.bridges[0];
  const commutated = bridge === undefined ? undefined : bridgeCarrier(bridge.bursts, interval);
  const by = levels.gates.length > 0 ? "gate" : "signal";
  const explained =
    main === undefined || drives.length === 0 ? undefined : explainedCarrier(main, drives, { interval, by });
  if (bridge !== undefined && commutated !== undefined) {
    const seen = { channel: bridge.index, is: estimateOf(commutated) };
    const fitted = main && explained && { channel: main.index, is: estimateOf(explained) };
    return fitted && narrows(fitted.is, seen.is) ? fitted : seen;
  }
  const driven =
    explained ??
    (main === undefined || drives.length === 0 ? undefined : signalCarrier(main.reading, drives, interval));
  if (main !== undefined && driven !== undefined) return { channel: main.index, is: estimateOf(driven) };
  const strongest = poles?.is.poles.reduce((best, one) => (one.share > best.share ? one : best));
  return poles === undefined || strongest === undefined
    ? undefined
    : { channel: poles.channel, is: strongest.frequency };
}

/**
 * The bridge's frequency as a channel shows it, undefined where nothing explains the bursts. A drive that follows the primary's current may
 * look even where that current is not seen, or is seen poorly; hardly the other way round.
 *
 * @param by  what shows the drives
 */
function explainedCarrier(
  { reading, channel: { role } }: Read,
  drives: readonly Pulse[],
  { interval, by }: { interval: number; by: "gate" | "signal" },
): Measured | undefined {
  const fitted = fittedCarrier(reading, interval);
  if (fitted !== undefined && reading.drives.some(({ drive }) => drive?.floating !== undefined)) return fitted;
  const sure = reading.drives.flatMap(({ drive }) =>
    drive?.sure && drive.usual !== undefined ? [drive.usual.by] : [],
  );
  // Without a second pole the current's own zeros say more than a pole that is only supposed.
  const known = sure.includes("even") || (sure.length > 0 && reading.poles?.poles.length === 1);
  if (known && role === "primaryCurrent") return fitted;
  return followingCarrier(reading, drives, { interval, role, by }) ?? fitted;
}

function steadyOf({ index, reading }: Read, interval: number): FromChannel<readonly Estimate[]> | undefined {
  const tones = steadyTones(reading, interval).map(estimateOf);
  return tones.length === 0 ? undefined : { channel: index, is: tones };
}

function burstsRead(
  { segments }: ChannelReading,
  drives: readonly Pulse[],
  { start, interval }: BenchRecord,
): readonly BurstRead[] {
  const time = (sample: number) => start + sample * interval;
  let next = 0;
  return segments.bursts.map(({ from, to, peak, cutAtStart, cutAtEnd }) => {
    // Bursts and drives follow one another.
    while (next < drives.length && drives[next]!.to <= from) next++;
    const near = drives[next];
    const drive = near !== undefined && near.from < to ? near : undefined;
    return {
      start: time(drive?.from ?? from),
      ...(drive === undefined ? {} : { driveEnd: time(drive.to) }),
      end: time(to),
      peak,
      cutAtStart,
      cutAtEnd,
    };
  });
}
