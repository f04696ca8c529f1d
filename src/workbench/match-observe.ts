/** From records and what was read from them to what the fit takes. */
import type { Finding } from "../catalogue/finding.ts";
import { amperesPerUnit, type BenchRecord, type Channel } from "../description/record.ts";
import { currentPeaks } from "../matching/fit/current-peaks.ts";
import { type HalfCyclePeak, type Observed, type RecordState, readingOf, type Tone } from "../matching/fit/observed.ts";
import { type Sweep, sweepTones } from "../matching/fit/sweep.ts";
import { lastingPoles } from "../matching/reading/lasting.ts";
import { type RecordReading, readRecord } from "../matching/record.ts";
import type { Volt } from "../units/si.ts";

/** Amplitude against frequency, low level, without power. */
export interface SweepRecord {
  readonly name: string;
  readonly sweep: Sweep;
  readonly state: "cold" | "near";
}

/** A record over time, and what a person knows of how it was made. */
export interface TimeRecord {
  readonly record: BenchRecord;
  readonly reading: RecordReading;
  /** Where nobody says: `cold` without a drive, `low` with one, which is to say that no streamer loads the top while it rings down. */
  readonly state?: RecordState;
  /** Of the whole bus before the burst, where it was read off a meter. */
  readonly busVoltage?: Volt;
}

export type MatchRecord = TimeRecord | SweepRecord;

export const nameOf = (each: MatchRecord): string => ("sweep" in each ? each.name : each.record.name);

/** Half-cycles that are compared. */
const mostPeaks = 14;
/** Below this Q the strongest tone may be the primary giving back its energy: the loop is asked too. */
const doubtfulQ = 60;
/** Parts: a meter and a probe at the bus; mains and sag where the bus was not measured. */
const busError = { said: 0.02, measured: 0.02, drawn: 0.06 };

/**
 * @param drawnBus  of the coil at full mains; undefined where the file has no supply. A low bus that nobody measured is not guessed
 */
export function observe(each: MatchRecord, drawnBus: Volt | undefined): Observed {
  if ("sweep" in each) {
    return {
      record: each.name,
      state: each.state,
      tones: frequenciesOf(sweepTones(each.sweep)),
      carrierFrom: "loop",
      driveKnown: false,
      peaks: [],
    };
  }
  const { record, reading, busVoltage } = each;
  const { onTime } = reading;
  const carrier = driveCarrier(reading);
  const driven = reading.bursts.some((burst) => burst.driveEnd !== undefined) || onTime !== undefined;
  const state = each.state ?? (driven ? "low" : "cold");
  const role = carrier && record.channels[carrier.channel]?.role;
  const current = record.channels.find((channel) => channel.role === "primaryCurrent");
  const perUnit = current && amperesPerUnit(current);
  const atMains = state === "full" || each.state === undefined;
  const bus = busOf(record, reading, { busVoltage, drawnBus: atMains ? drawnBus : undefined });
  return {
    record: record.name,
    state,
    tones: tonesOf(record, reading),
    ...drivenLinesOf(reading, state),
    ...(carrier && driven ? { carrier: readingOf(carrier.is) } : {}),
    ...(carrier && driven && reading.evenly ? { evenly: true } : {}),
    carrierFrom: role === "bridgeOutput" ? "bridge" : role === "primaryCurrent" ? "current" : "loop",
    driveKnown: onTime !== undefined && onTime.is.by !== "signal",
    peaks: current && bus ? peaksOf(record, current, reading, perUnit ?? 1) : [],
    ...(perUnit === undefined ? {} : { scaleError: 0.015 }),
    ...(bus ? { bus } : {}),
    ...(onTime ? { onTime: onTime.is.estimate.value } : {}),
  };
}

/** The carrier of the drive; where only the ring-down could be read, its strongest line stands in its place and is none. */
function driveCarrier({ carrier, poles }: RecordReading): RecordReading["carrier"] {
  return poles?.is.poles.some(({ frequency }) => frequency.value === carrier?.is.value) ? undefined : carrier;
}

/** The Q of a sweep is that of coil and generator together. */
const frequenciesOf = (tones: readonly Tone[]): readonly Tone[] => tones.map(({ frequency }) => ({ frequency }));

/**
 * The lines of the ring-down; where the reading's channel shows none that lasts, those of the pickup loop alone. A primary whose energy goes
 * back to the bus stops within a few cycles, and what is read there is no line.
 */
function tonesOf(record: BenchRecord, { poles, steady }: RecordReading): readonly Tone[] {
  const found = lasting(poles);
  if (longestQ(found) > doubtfulQ) return found;
  const loop = record.channels.find(({ role }) => role === "pickupLoop");
  // With the gate beside it, which says where the drive ends.
  const channels = record.channels.filter(
    (each) => each === loop || each.role === "gate" || each.role === "bridgeOutput",
  );
  const again = loop && record.channels.length > 1 ? lasting(readRecord({ ...record, channels }).poles) : [];
  if (longestQ(again) > longestQ(found)) return again;
  if (found.length > 0) return found;
  return (steady?.is ?? []).slice(0, 2).map((each) => ({ frequency: readingOf(each) }));
}

const longestQ = (tones: readonly Tone[]): number => Math.max(0, ...tones.map(({ q }) => q?.value ?? 0));

const lasting = (poles: RecordReading["poles"]): readonly Tone[] =>
  lastingPoles(poles?.is).map(({ frequency, q }) => ({ frequency: readingOf(frequency), q: readingOf(q) }));

function drivenLinesOf({ driven, secondary: zero }: RecordReading, state: RecordState): Pick<Observed, "driven"> {
  if (state === "full") return {};
  if (driven === undefined) return zero === undefined ? {} : { driven: { secondary: readingOf(zero.is) } };
  const { lower, upper, secondary } = driven.is;
  return { driven: { lower: readingOf(lower), upper: readingOf(upper), secondary: readingOf(secondary) } };
}

function busOf(
  record: BenchRecord,
  { bursts }: RecordReading,
  { busVoltage, drawnBus }: { busVoltage: Volt | undefined; drawnBus: Volt | undefined },
): Observed["bus"] {
  if (busVoltage !== undefined && busVoltage > 0) return { voltage: busVoltage, error: busError.said * busVoltage };
  const channel = record.channels.find(({ role, unit }) => role === "bus" && unit === "V");
  const start = bursts[0]?.start;
  if (channel && start !== undefined) {
    const { mean } = quietPart(channel, Math.round((start - record.start) / record.interval));
    if (mean > 0) return { voltage: mean, error: busError.measured * mean };
  }
  return drawnBus !== undefined && drawnBus > 0
    ? { voltage: drawnBus, error: busError.drawn * drawnBus, assumed: true }
    : undefined;
}

/** Mean and scatter of a channel before a sample; of its last part where nothing is before it. */
function quietPart({ samples }: Pick<Channel, "samples">, before: number): { mean: number; scatter: number } {
  const gap = 20;
  const to = Math.max(0, before - gap);
  const quiet = to >= gap ? samples.subarray(Math.max(0, to - 4000), to) : samples.subarray(-400);
  let [count, sum, squares] = [0, 0, 0];
  for (const value of quiet) {
    if (!Number.isFinite(value)) continue;
    count++;
    sum += value;
    squares += value * value;
  }
  const mean = count > 0 ? sum / count : 0;
  return { mean, scatter: count > 1 ? Math.sqrt(Math.max(0, squares / count - mean * mean)) : 0 };
}

/** Of a record, its beginning that is looked at for quiet; what stands so many times above its scatter, and this part of the peak, is loud. */
const [quietShare, loudScatters, loudOfPeak] = [0.02, 12, 0.1];

/**
 * Where a current begins and ends that is too short for a burst: a bridge that stops it within a few half-cycles. Undefined where it does not
 * begin in quiet.
 */
function loudPart({ samples }: Channel): { readonly from: number; readonly to: number } | undefined {
  const count = Math.max(50, Math.round(quietShare * samples.length));
  const { mean, scatter } = quietPart({ samples: samples.subarray(0, count) }, count);
  const height = (n: number): number => Math.abs(samples[n]! - mean);
  let peak = 0;
  for (let n = 0; n < samples.length; n++) peak = Math.max(peak, height(n) || 0);
  const level = Math.max(loudScatters * scatter, loudOfPeak * peak);
  if (!(peak > level)) return undefined;
  const first = samples.findIndex((_, n) => height(n) > level);
  const last = samples.findLastIndex((_, n) => height(n) > level);
  return first < count ? undefined : { from: first - 1, to: Math.min(samples.length - 1, 2 * last - first + 3) };
}

function peaksOf(
  record: BenchRecord,
  channel: Channel,
  { bursts, onTime }: RecordReading,
  perUnit: number,
): readonly HalfCyclePeak[] {
  // A gate inside the record tells the start also where too little flows for the current to tell it.
  const gated = onTime !== undefined && onTime.is.by !== "signal";
  const burst = bursts.find(
    ({ start, driveEnd, cutAtStart }) =>
      !cutAtStart || (gated && driveEnd !== undefined && start > record.start + 2 * record.interval),
  );
  const loud = burst ? undefined : loudPart(channel);
  if (burst === undefined && loud === undefined) return [];
  const sampleOf = (time: number): number => (time - record.start) / record.interval;
  const from = burst ? sampleOf(burst.start) : loud!.from;
  const to = burst
    ? sampleOf(burst.driveEnd ?? (onTime ? burst.start + onTime.is.estimate.value : burst.end))
    : loud!.to;
  const { mean, scatter } = quietPart(channel, Math.round(from));
  const peaks = currentPeaks({
    samples: channel.samples,
    perUnit,
    from,
    to,
    noise: scatter,
    offset: mean,
    interval: record.interval,
    most: mostPeaks,
  });
  return burst?.driveEnd === undefined && onTime === undefined ? untilGreatest(peaks) : peaks;
}

/** Where nothing tells the drive's end: behind the greatest peak the bridge may be off. A current that falls from its start is kept whole. */
function untilGreatest(peaks: readonly HalfCyclePeak[]): readonly HalfCyclePeak[] {
  const heights = peaks.map(({ current }) => current);
  const greatest = heights.indexOf(Math.max(...heights));
  return greatest < fewestGrowing ? peaks : peaks.slice(0, greatest + 1);
}

const fewestGrowing = 3;

/** What a record lacks for a match, as findings about it. */
export function lackingFor(each: MatchRecord, observed: Observed): readonly Finding[] {
  const name = nameOf(each);
  if (observed.tones.length === 0 && observed.carrier === undefined && observed.peaks.length === 0) {
    return [
      finding({
        rule: "match-nothing-read",
        severity: "fix",
        what: `${name}: no ring-down, no carrier and no first half-cycles could be read`,
        expected:
          "sweep" in each
            ? "a sweep with a peak inside it, and eight points or more"
            : "a burst and its ring-down on a channel for the pickup loop or the primary current",
        remedy: "name the channels (--role 2=primaryCurrent), or take a longer record with the trigger inside it",
      }),
    ];
  }
  const current = "record" in each && each.record.channels.some(({ role }) => role === "primaryCurrent");
  if (!current) return [];
  if (observed.bus?.unknown) {
    return [
      finding({
        rule: "match-bus-unknown",
        severity: "look",
        what: `${name}: far less current flows than the full bus of ${Math.round(observed.bus.voltage)} V would drive, so its bus counts as unknown and only how the current grows is compared`,
        expected: "the bus voltage of this record",
        remedy: "give it, as in --bus 60, or record the bus on a channel",
      }),
    ];
  }
  if (observed.bus?.assumed && each.state === undefined) {
    return [
      finding({
        rule: "match-state-assumed",
        severity: "look",
        what: `${name}: nobody said how it was made; it is taken for one at the full bus of ${Math.round(observed.bus.voltage)} V without a streamer in its ring-down`,
        expected: "the state of the record and its bus voltage",
        remedy: "say it, as in --state low --bus 60",
      }),
    ];
  }
  return observed.bus === undefined
    ? [
        finding({
          rule: "match-bus-unknown",
          severity: "look",
          what: `${name}: the primary current is recorded, the bus voltage is not, so the height of the current is left out`,
          expected: observed.state === "full" ? "a supply in the coil file" : "the bus voltage of this record",
          remedy: "give it, as in --bus 60, or record the bus on a channel",
        }),
      ]
    : [];
}

const finding = ({
  rule,
  severity,
  what,
  expected,
  remedy,
}: {
  rule: string;
  severity: Finding["severity"];
  what: string;
  expected: string;
  remedy: string;
}): Finding => ({ rule, severity, path: "", what, expected, evidence: [], remedies: [{ says: remedy, edits: [] }] });
