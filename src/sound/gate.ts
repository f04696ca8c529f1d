/** Pulses → square pulses for a sound card that drives an optical transmitter, with what that costs in timing. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Hertz, Ratio, Second } from "../units/si.ts";
import { checkTrain, type PulseTrain } from "./train.ts";

/** Sample rates of sound cards. */
export const gateRates = [44_100, 48_000, 96_000, 192_000] as const;

export interface GateSettings {
  readonly rate: (typeof gateRates)[number];
  /** Which way a pulse goes from silence. Silence, a stopped player and a pulled plug are always: no pulse. */
  readonly pulse?: "positive" | "negative";
  /** 0 to 1: height of the pulses, below full scale so that the converter does not clip. */
  readonly height?: Ratio;
  /** Of the card's coupling capacitor, a high-pass of first order; 0 for a card that passes direct voltage. 20 Hz: common practice, no source. */
  readonly corner?: Hertz;
}

/** What becomes of the pulses' times. On-times are only ever shortened. */
export interface GateError {
  /** Greatest and root-mean-square difference of a pulse's start from the train, either way. */
  readonly startWorst: Second;
  readonly startMean: Second;
  /** Most that an on-time is shortened by. */
  readonly shortenedWorst: Second;
  /** Pulses that are not in the samples: shorter than a sample, or without a sample of silence before them. */
  readonly lost: number;
  /** Greatest sag of a pulse's top over its on-time, as a share of its height. */
  readonly droopWorst: Ratio;
  /** Greatest shift of silence against the pulse, as a share of its height. A receiver that switches at half height misses pulses from 0.5. */
  readonly baselineWorst: Ratio;
  /** Of the times above, what the shifted baseline adds at most, at edges one sample steep. */
  readonly baselineTime: Second;
}

export interface GateSignal {
  readonly rate: Hertz;
  readonly frames: number;
  readonly error: GateError;
  /** Mono: 0, or the height with its sign. They are made one by one, as they are taken. */
  chunks(): Generator<Float32Array<ArrayBuffer>, void, undefined>;
}

const chunkLength = 16_384;
/** Silence behind the last pulse. */
const tail: Second = 0.05;

/**
 * Square pulses, each edge on a sample: the start on the nearest one, the on-time rounded down, so that no pulse is longer than planned.
 *
 * @throws OutOfDomain  the train is not in order, or a setting is out of range
 * @validity  the error is that of rounding, and of a first-order high-pass whose baseline moves the crossing of half height along an edge
 *            one sample steep, as an ideal converter makes it. The card's clock (some 50 parts per million; common practice, no source), its
 *            latency and the transmitter's own delays come on top.
 */
export function gateOf(
  train: PulseTrain,
  { rate, pulse = "positive", height = 0.9, corner = 20 }: GateSettings,
): GateSignal {
  checkTrain("gateOf", train);
  if (!gateRates.includes(rate))
    throw new OutOfDomain("gateOf", `rate must be one of ${gateRates.join(", ")} Hz, got ${rate} Hz`);
  if (!(height > 0 && height <= 1))
    throw new OutOfDomain("gateOf", `height must be above 0 and at most 1, got ${height}`);
  if (!(corner >= 0 && corner < rate / 20))
    throw new OutOfDomain("gateOf", `corner must be 0 to ${rate / 20} Hz, got ${corner} Hz`);
  const error = errorOf(train, { rate, corner });
  let last = train.duration;
  for (const sent of edges(train, rate)) last = Math.max(last, (sent.from + sent.length) / rate);
  const frames = Math.ceil((last + tail) * rate);
  return {
    rate,
    frames,
    error,
    chunks: () => squares(train, { rate, frames, level: pulse === "positive" ? height : -height }),
  };
}

interface Sent {
  readonly index: number;
  /** First sample, and how many. */
  readonly from: number;
  readonly length: number;
}

/** The pulses that can be sent: at least a sample long, with at least a sample of silence before them. */
function* edges({ start, onTime }: PulseTrain, rate: Hertz): Generator<Sent, void, undefined> {
  let free = 0;
  for (let index = 0; index < start.length; index++) {
    const from = Math.round((start[index] ?? 0) * rate);
    // A hair more, so that an on-time of whole samples does not lose one to rounding.
    const length = Math.floor((onTime[index] ?? 0) * rate + 1e-6);
    if (length < 1 || from < free) continue;
    free = from + length + 1;
    yield { index, from, length };
  }
}

function errorOf(train: PulseTrain, { rate, corner }: { rate: Hertz; corner: Hertz }): GateError {
  const decay = 2 * Math.PI * corner;
  let [startWorst, squareSum, shortened, sent, droop, worstBaseline] = [0, 0, 0, 0, 0, 0];
  let baseline = 0;
  let silentFrom = 0;
  for (const { index, from, length } of edges(train, rate)) {
    const late = from / rate - (train.start[index] ?? 0);
    startWorst = Math.max(startWorst, Math.abs(late));
    squareSum += late * late;
    shortened = Math.max(shortened, (train.onTime[index] ?? 0) - length / rate);
    sent++;
    // Between pulses the baseline falls back, in a pulse it climbs towards its height; both as the capacitor does.
    baseline *= Math.exp((-decay * (from - silentFrom)) / rate);
    const climbed = (1 - baseline) * -Math.expm1((-decay * length) / rate);
    baseline += climbed;
    droop = Math.max(droop, climbed);
    worstBaseline = Math.max(worstBaseline, baseline);
    silentFrom = from + length;
  }
  let wanted = 0;
  for (const on of train.onTime) if (on > 0) wanted++;
  const baselineTime = worstBaseline / rate;
  return {
    startWorst: startWorst + baselineTime,
    startMean: sent === 0 ? 0 : Math.hypot(Math.sqrt(squareSum / sent), baselineTime),
    shortenedWorst: shortened + 2 * baselineTime,
    lost: wanted - sent,
    droopWorst: droop,
    baselineWorst: worstBaseline,
    baselineTime,
  };
}

function* squares(
  train: PulseTrain,
  { rate, frames, level }: { rate: Hertz; frames: number; level: number },
): Generator<Float32Array<ArrayBuffer>, void, undefined> {
  const sent = edges(train, rate);
  let pulse = sent.next().value;
  for (let from = 0; from < frames; from += chunkLength) {
    const piece = new Float32Array(Math.min(chunkLength, frames - from));
    const to = from + piece.length;
    while (pulse !== undefined && pulse.from < to) {
      piece.fill(level, Math.max(0, pulse.from - from), Math.min(piece.length, pulse.from + pulse.length - from));
      if (pulse.from + pulse.length > to) break;
      pulse = sent.next().value;
    }
    yield piece;
  }
}
