/** A record laid over the burst that the model gives for it: in time, aligned, and in frequency. */
import { amperesPerUnit, type Channel, type ChannelRole } from "../description/record.ts";
import type { RecordState } from "../matching/fit/observed.ts";
import { fourierTransform, powerOfTwoFrom } from "../numerics/fft.ts";
import type { Second } from "../units/si.ts";
import type { Solution } from "./contract.ts";
import { breakoutTimeOf, burstWaves, networkToMove } from "./match-burst.ts";
import type { Match } from "./match-contract.ts";
import type { TimeRecord } from "./match-observe.ts";
import type { BurstInput } from "./match-point.ts";

export type Prediction = "drawn" | "fitted";

/** What the model gives for a channel, brought into the channel's place and size. */
export interface PredictedWave {
  readonly values: Float64Array;
  /** By which the prediction was multiplied; 1 where the channel has a scale of its own. Negative where the record is upside down. */
  readonly scale: number;
  /** By which it was moved to meet the record [s]. */
  readonly shift: Second;
  /** Root mean square of what is left over that of the record. */
  readonly left: number;
}

/** Amplitude over frequency; all arrays of one length. */
export interface OverlaySpectrum {
  readonly frequency: Float64Array;
  readonly measured: Float64Array;
  readonly predicted: Partial<Readonly<Record<Prediction, Float64Array>>>;
}

export interface Overlay {
  readonly channel: string;
  readonly role: ChannelRole;
  readonly state: RecordState;
  /** What of the model stands against the channel. */
  readonly against: "primary current" | "top-load voltage" | "bridge voltage";
  readonly unit: string;
  /** From the start of the burst [s]. */
  readonly time: Float64Array;
  readonly measured: Float64Array;
  /** Empty for a record without a drive, and for a coil without a bridge. */
  readonly predicted: Partial<Readonly<Record<Prediction, PredictedWave>>>;
  /** [s]; absent where the record shows no drive. */
  readonly onTime?: Second;
  /** When the top as drawn first breaks out, from where on the model without a streamer says less [s]. */
  readonly breakoutTime?: Second;
  readonly spectrum: OverlaySpectrum;
}

/** Channels that swing, in the order in which they are shown. */
const shownRoles = { primaryCurrent: 0, pickupLoop: 1, unknown: 2, bridgeOutput: 3 } as const;
const mostChannels = 3;
const mostSamples = 16_000;
/** Of the burst before its start, and after the end of its drive, in on-times. */
const [before, after] = [0.08, 1.6];
/** Length of a record without a drive that is shown, in cycles. */
const freeCycles = 120;
/** Places that are tried within a cycle to bring record and prediction together. */
const places = 48;
/** By so much a prediction counts less like the record for each cycle that it was moved. */
const lessLike = 0.3;

/**
 * @param match  of this and other records; undefined where nothing could be fitted
 * @param index  of the record in it
 * @returns one for each channel that swings, at most three; none where the record has no burst
 */
export function overlays(
  { record, reading, state }: TimeRecord,
  { solution, match, index }: { solution: Solution; match: Match | undefined; index: number },
): readonly Overlay[] {
  const burst = reading.bursts.find(({ cutAtStart }) => !cutAtStart) ?? reading.bursts[0];
  if (burst === undefined) return [];
  const onTime =
    burst.driveEnd === undefined ? reading.onTime?.is.estimate.value : Math.max(0, burst.driveEnd - burst.start);
  const frequency = reading.carrier?.is.value ?? 1 / (40 * record.interval);
  const from = burst.start - before * (onTime ?? 0);
  const to = Math.min(
    record.start + (record.length - 1) * record.interval,
    onTime === undefined
      ? Math.min(burst.end, burst.start + freeCycles / frequency)
      : burst.start + onTime + Math.max(after * onTime, 20 / frequency),
  );
  const sampled = {
    first: Math.max(0, Math.round((from - record.start) / record.interval)),
    last: Math.floor((to - record.start) / record.interval),
  };
  const waves =
    onTime === undefined ? undefined : wavesOf(solution, match?.bursts[index], { onTime, end: to - burst.start });
  const network = waves && networkToMove(solution);
  const breakout = network && state === "full" ? breakoutTimeOf(solution, network, onTime ?? 0) : undefined;
  return record.channels
    .filter(({ role }) => role in shownRoles)
    .sort((a, b) => rankOf(a) - rankOf(b))
    .slice(0, mostChannels)
    .map((channel): Overlay => {
      const { time, values: measured } = stretchOf(channel, { ...sampled, record, origin: burst.start });
      const against =
        channel.role === "primaryCurrent"
          ? "primary current"
          : channel.role === "bridgeOutput"
            ? "bridge voltage"
            : "top-load voltage";
      const perUnit = channel.role === "primaryCurrent" ? amperesPerUnit(channel) : undefined;
      if (perUnit !== undefined) for (let n = 0; n < measured.length; n++) measured[n]! *= perUnit;
      const predicted: Partial<Record<Prediction, PredictedWave>> = {};
      for (const [name, wave] of Object.entries(waves ?? {}) as [Prediction, Waves][]) {
        predicted[name] = met({
          wave: wave[against],
          step: wave.step,
          time,
          measured,
          frequency,
          isScaled: perUnit !== undefined,
        });
      }
      return {
        channel: channel.name,
        role: channel.role,
        state: state ?? (onTime === undefined ? "cold" : "low"),
        against,
        unit: perUnit === undefined ? channel.unit : "A",
        time,
        measured,
        predicted,
        ...(onTime === undefined ? {} : { onTime }),
        ...(breakout !== undefined && Number.isFinite(breakout) ? { breakoutTime: breakout } : {}),
        spectrum: spectrumOf(time, measured, { predicted, frequency }),
      };
    });
}

const rankOf = ({ role }: Channel): number => shownRoles[role as keyof typeof shownRoles];

/** Samples of a channel within the record, every so many of them where there are too many, without its offset. */
function stretchOf(
  { samples }: Channel,
  { record, first, last, origin }: { record: TimeRecord["record"]; first: number; last: number; origin: Second },
): { time: Float64Array; values: Float64Array } {
  const stride = Math.max(1, Math.ceil((last - first + 1) / mostSamples));
  const count = Math.max(0, Math.floor((last - first) / stride) + 1);
  const values = new Float64Array(count);
  let held = 0;
  let sum = 0;
  for (let n = 0; n < count; n++) {
    const value = samples[first + n * stride]!;
    // A blank or clipped sample is drawn as the last one that was there.
    held = Number.isFinite(value) ? value : held;
    values[n] = held;
    sum += held;
  }
  const mean = count > 0 ? sum / count : 0;
  return {
    time: Float64Array.from(values, (_, n) => record.start + (first + n * stride) * record.interval - origin),
    values: values.map((value) => value - mean),
  };
}

type Waves = Readonly<Record<Overlay["against"], Float64Array>> & { readonly step: Second };

/** Waveforms of the burst as drawn and as fitted, evenly sampled from its start. */
function wavesOf(
  solution: Solution,
  inputs: Readonly<Record<Prediction, BurstInput>> | undefined,
  { onTime, end }: { onTime: Second; end: Second },
): Partial<Record<Prediction, Waves>> {
  const network = networkToMove(solution);
  if (!network || !inputs || !(end > 0) || !(onTime > 0)) return {};
  const made: Partial<Record<Prediction, Waves>> = {};
  for (const name of ["drawn", "fitted"] as const) {
    const input = inputs[name];
    const exact = burstWaves(network, input, { onTime, endTime: end });
    if (!exact || !(exact.end > 0)) continue;
    const count = mostSamples;
    const step = exact.end / (count - 1);
    const samples = exact.sample(Float64Array.from({ length: count }, (_, n) => Math.min(n * step, exact.end)));
    made[name] = {
      step,
      "primary current": samples.primaryCurrent.map((value) => value * input.scale),
      "top-load voltage": samples.topVoltage,
      "bridge voltage": samples.driveVoltage,
    };
  }
  return made;
}

/** The prediction moved by less than a cycle, and scaled where the channel has no scale, to meet the record. */
function met({
  wave,
  step,
  time,
  measured,
  frequency,
  isScaled,
}: {
  wave: Float64Array;
  step: Second;
  time: Float64Array;
  measured: Float64Array;
  frequency: number;
  isScaled: boolean;
}): PredictedWave {
  const at = (when: Second): number => {
    const place = when / step;
    const n = Math.floor(place);
    if (n < 0 || n + 1 >= wave.length) return 0;
    return wave[n]! + (place - n) * (wave[n + 1]! - wave[n]!);
  };
  const products = (shift: Second) => {
    let [cross, square] = [0, 0];
    for (let n = 0; n < time.length; n++) {
      const value = at(time[n]! - shift);
      cross += value * measured[n]!;
      square += value * value;
    }
    return {
      shift,
      cross,
      square,
      likeness: square > 0 ? (Math.abs(cross) / Math.sqrt(square)) * (1 - lessLike * Math.abs(shift * frequency)) : 0,
    };
  };
  // Half a cycle later everything is nearly its own mirror image: of two alike the one that was moved less is meant.
  const best = Array.from({ length: places + 1 }, (_, n) => products((n / places - 0.5) / frequency)).reduce(
    (most, one) => (one.likeness > most.likeness ? one : most),
  );
  const { shift, cross, square } = best;
  const scale = square === 0 ? 1 : isScaled ? Math.sign(cross) || 1 : cross / square;
  const values = time.map((when) => scale * at(when - shift));
  let [missed, all] = [0, 0];
  for (let n = 0; n < time.length; n++) {
    missed += (measured[n]! - values[n]!) ** 2;
    all += measured[n]! ** 2;
  }
  return { values, scale, shift, left: all > 0 ? Math.sqrt(missed / all) : 0 };
}

/** Of the coil's lines: this much below and above the carrier. */
const band = { low: 0.5, high: 1.7 };

function spectrumOf(
  time: Float64Array,
  measured: Float64Array,
  { predicted, frequency }: { predicted: Overlay["predicted"]; frequency: number },
): OverlaySpectrum {
  const count = time.length;
  if (count < 16) return { frequency: new Float64Array(0), measured: new Float64Array(0), predicted: {} };
  const size = powerOfTwoFrom(2 * count);
  const step = (time[count - 1]! - time[0]!) / (count - 1);
  const [first, last] = [band.low, band.high].map((part) =>
    Math.min(size / 2, Math.round(part * frequency * size * step)),
  ) as [number, number];
  const transform = fourierTransform(size);
  const [input, output] = [transform.array(), transform.array()];
  const amplitude = (values: Float64Array): Float64Array => {
    input.fill(0);
    for (let n = 0; n < count; n++)
      input[2 * n] = values[n]! * (0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / count));
    transform.forward(input, output);
    return Float64Array.from(
      { length: last - first + 1 },
      (_, n) => (4 / count) * Math.hypot(output[2 * (first + n)]!, output[2 * (first + n) + 1]!),
    );
  };
  const { drawn, fitted } = predicted;
  return {
    frequency: Float64Array.from({ length: last - first + 1 }, (_, n) => (first + n) / (size * step)),
    measured: amplitude(measured),
    predicted: {
      ...(drawn ? { drawn: amplitude(drawn.values) } : {}),
      ...(fitted ? { fitted: amplitude(fitted.values) } : {}),
    },
  };
}
