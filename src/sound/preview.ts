/** Pulses → samples for headphones: a click for each pulse, placed to a fraction of a sample. A preview, not a level. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Hertz, Ratio, Second } from "../units/si.ts";
import { clickOf, type Spark, usualSpark } from "./click.ts";
import { type Kernel, kernelOf } from "./kernel.ts";
import { checkTrain, type PulseTrain } from "./train.ts";

export interface PreviewSettings {
  /** Samples per second, 8 kHz to 384 kHz; 48 kHz where nothing is set. */
  readonly rate?: Hertz;
  /** 0 to 1: peak of the loudest pulse alone. It begins low, at 0.1, for the sake of whoever wears the headphones. */
  readonly volume?: Ratio;
  readonly spark?: Spark;
}

export interface Preview {
  readonly rate: Hertz;
  /** Samples in all. */
  readonly frames: number;
  /** By how much every sample is late: half a click, so that the first one is whole. */
  readonly delay: Second;
  /** Mono, each value within ±1 exclusive; all pieces of one length but the last. They are made one by one, as they are taken. */
  chunks(): Generator<Float32Array<ArrayBuffer>, void, undefined>;
}

/** Samples of a piece. */
const chunkLength = 16_384;

/**
 * The sound of a train of pulses.
 *
 * Far from an unsteady source of heat the pressure follows the rate of change of its power. A pulse heats the channel evenly over its
 * on-time, so it gives a push where it begins and a pull where it ends, each smeared by the channel's own width in time (`clickOf`). Push and
 * pull are as strong as the mean power, which is taken to grow with the on-time as the current in the burst does.
 *
 * @throws OutOfDomain  the train is not in order, the rate or volume is out of range
 * @validity  timing exact to 1/256 of a sample and better; no level, no room, no branches, no growth of the streamer from pulse to pulse
 * @source    heat-as-sound, spark-n-wave; spark-preview (this project's own model)
 */
export function previewOf(
  train: PulseTrain,
  { rate = 48_000, volume = 0.1, spark = usualSpark }: PreviewSettings = {},
): Preview {
  checkTrain("previewOf", train);
  if (!(rate >= 8000 && rate <= 384_000))
    throw new OutOfDomain("previewOf", `rate must be 8 kHz to 384 kHz, got ${rate} Hz`);
  if (!(volume >= 0 && volume <= 1)) throw new OutOfDomain("previewOf", `volume must be 0 to 1, got ${volume}`);
  const kernel = kernelOf({ rate, width: clickOf(spark).width });
  let longest = 0;
  let last = train.duration;
  for (let i = 0; i < train.start.length; i++) {
    longest = Math.max(longest, train.onTime[i] ?? 0);
    last = Math.max(last, (train.start[i] ?? 0) + (train.onTime[i] ?? 0));
  }
  const frames = Math.ceil(last * rate) + 2 * kernel.lead + 1;
  const strength = longest > 0 ? volume / (longest * kernel.peak) : 0;
  return {
    rate,
    frames,
    delay: kernel.lead / rate,
    chunks: () => clicks(train, { rate, kernel, frames, strength, reach: Math.ceil(longest * rate) + kernel.taps + 2 }),
  };
}

interface Clicking {
  readonly rate: Hertz;
  readonly kernel: Kernel;
  readonly frames: number;
  /** Peak per second of on-time. */
  readonly strength: number;
  /** Samples from the first that a pulse touches to its last. */
  readonly reach: number;
}

function* clicks(
  { start, onTime }: PulseTrain,
  { rate, kernel, frames, strength, reach }: Clicking,
): Generator<Float32Array<ArrayBuffer>, void, undefined> {
  // What a pulse leaves beyond the piece in hand waits behind it.
  const sum = new Float64Array(chunkLength + reach);
  let next = 0;
  for (let from = 0; from < frames; from += chunkLength) {
    for (; next < start.length; next++) {
      const on = (start[next] ?? 0) * rate - from;
      if (on >= chunkLength) break;
      const length = onTime[next] ?? 0;
      if (length === 0) continue;
      place(sum, { kernel, at: on, size: strength * length });
      place(sum, { kernel, at: on + length * rate, size: -strength * length });
    }
    const piece = new Float32Array(Math.min(chunkLength, frames - from));
    for (let i = 0; i < piece.length; i++) piece[i] = limited(sum[i] ?? 0);
    yield piece;
    sum.copyWithin(0, chunkLength);
    sum.fill(0, sum.length - chunkLength);
  }
}

/** Adds the kernel centred at `at` + lead samples; `at` is at least 0. */
function place(sum: Float64Array, { kernel, at, size }: { kernel: Kernel; at: number; size: number }): void {
  const { taps, phases, table } = kernel;
  const first = Math.floor(at);
  const position = (at - first) * phases;
  const phase = Math.min(phases - 1, Math.floor(position));
  const share = position - phase;
  const row = phase * taps;
  const [before, behind] = [size * (1 - share), size * share];
  for (let tap = 0; tap < taps; tap++)
    sum[first + tap] =
      (sum[first + tap] ?? 0) + before * (table[row + tap] ?? 0) + behind * (table[row + taps + tap] ?? 0);
}

/** Straight to 0.8; above that it bends over and never reaches 1. */
const bendsAt = 0.8;

function limited(value: number): number {
  const size = Math.abs(value);
  if (size <= bendsAt) return value;
  const over = (size - bendsAt) / (1 - bendsAt);
  return Math.sign(value) * (bendsAt + (1 - bendsAt) * 0.999 * (over / (1 + over)));
}
