/** What a record says by itself, under the ids of the catalogue. */
import { amperesPerUnit, type BenchRecord, type Channel, channelRoles } from "../description/record.ts";
import { recordStates } from "../matching/fit/observed.ts";
import { type Sweep, sweepTones } from "../matching/fit/sweep.ts";
import type { Estimate } from "../matching/reading/estimate.ts";
import { type RecordReading, readingSteps } from "../matching/record.ts";
import { allSteps } from "../numerics/steps.ts";
import type { TimeRecord } from "./match-observe.ts";

export type { ChannelRole } from "../description/record.ts";
export type { RecordState } from "../matching/fit/observed.ts";
export { channelRoles, recordStates };

/** A record read for a match, with what a person says of it. */
export function timeRecord(record: BenchRecord, said: Pick<TimeRecord, "state" | "busVoltage"> = {}): TimeRecord {
  return allSteps(timeRecordSteps(record, said));
}

/** The same step by step, each with what it looks at: a long record takes a second or two. */
export function* timeRecordSteps(
  record: BenchRecord,
  said: Pick<TimeRecord, "state" | "busVoltage"> = {},
): Generator<string, TimeRecord> {
  return { record, reading: yield* readingSteps(record), ...said };
}

/** A figure of a record: value and 90 % interval, SI. */
export interface CaptureFigure extends Estimate {
  readonly id: string;
  readonly unit: string;
}

/** The figures that this record shows, in the order of the catalogue; what it does not show is left out. */
export function captureFigures({
  repetition,
  onTime,
  carrier,
  poles,
  driven,
  steady,
}: RecordReading): readonly CaptureFigure[] {
  const lines = poles?.is.poles ?? [];
  const decaying = lines.length > 0 ? lines.map(({ frequency }) => frequency) : (steady?.is ?? []);
  const [lower, upper] = driven === undefined ? decaying : [driven.is.lower, driven.is.upper];
  const strongest = lines.reduce<(typeof lines)[number] | undefined>(
    (best, one) => (best === undefined || one.share > best.share ? one : best),
    undefined,
  );
  const found: readonly (readonly [string, string, Estimate | undefined])[] = [
    ["capture.repetitionRate", "Hz", repetition?.is.rate],
    ["capture.onTime", "s", onTime?.is.estimate],
    ["capture.carrier", "Hz", carrier?.is],
    ["capture.poles.lower", "Hz", upper === undefined ? undefined : lower],
    ["capture.poles.upper", "Hz", upper],
    ["capture.beat", "Hz", driven === undefined ? poles?.is.beat : driven.is.beat],
    ["capture.q", "1", strongest?.q],
    ["capture.decayTime", "s", strongest?.decayTime],
  ];
  return found.flatMap(([id, unit, estimate]) => (estimate === undefined ? [] : [{ id, unit, ...estimate }]));
}

/** Peaks of a sweep, lower first [Hz]. */
export const sweepPeaks = (sweep: Sweep): readonly number[] =>
  sweepTones(sweep).map(({ frequency }) => frequency.value);

/** Mean of a channel and the greatest distance from it, in its unit; in amperes where it shows a current and has a scale. */
export function channelHeight(channel: Channel): { readonly mean: number; readonly peak: number } {
  let [sum, count, low, high] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of channel.samples) {
    if (!Number.isFinite(value)) continue;
    sum += value;
    count++;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (count === 0) return { mean: 0, peak: 0 };
  const scale = channel.role === "primaryCurrent" ? (amperesPerUnit(channel) ?? 1) : 1;
  const mean = sum / count;
  return { mean: scale * mean, peak: scale * Math.max(high - mean, mean - low) };
}
