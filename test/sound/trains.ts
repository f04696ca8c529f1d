/** Trains and spectra for the tests of sound. */
import { fourierTransform } from "../../src/numerics/fft.ts";
import type { PulseTrain } from "../../src/sound/train.ts";

/** Pulses at one frequency, each of one on-time. */
export function steady({
  frequency,
  onTime,
  duration,
}: {
  frequency: number;
  onTime: number;
  duration: number;
}): PulseTrain {
  const count = Math.floor(duration * frequency);
  return {
    start: Float64Array.from({ length: count }, (_, i) => i / frequency),
    onTime: new Float64Array(count).fill(onTime),
    duration,
  };
}

export function single({ start, onTime }: { start: number; onTime: number }): PulseTrain {
  return { start: Float64Array.of(start), onTime: Float64Array.of(onTime), duration: start + onTime };
}

export function joined(chunks: Iterable<Float32Array>): Float32Array {
  const pieces = [...chunks];
  const whole = new Float32Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** Interleaved spectrum of `size` samples from `from` on, through a four-term window whose side lobes lie below −92 dB. */
export function spectrum(
  samples: Float32Array,
  { from, size, window = true }: { from: number; size: number; window?: boolean },
): number[] {
  const transform = fourierTransform(size);
  const [input, output] = [transform.array(), transform.array()];
  for (let i = 0; i < size; i++) {
    const x = (2 * Math.PI * i) / size;
    const weight = window ? 0.35875 - 0.48829 * Math.cos(x) + 0.14128 * Math.cos(2 * x) - 0.01168 * Math.cos(3 * x) : 1;
    input[2 * i] = weight * (samples[from + i] ?? 0);
  }
  transform.forward(input, output);
  return output;
}

export function magnitude(bins: readonly number[], k: number): number {
  return Math.hypot(bins[2 * k] ?? 0, bins[2 * k + 1] ?? 0);
}

/** Frequency of the strongest line between two frequencies, between the bins by a parabola through the logarithms. */
export function lineIn(
  bins: readonly number[],
  { rate, low, high }: { rate: number; low: number; high: number },
): number {
  const size = bins.length / 2;
  let best = Math.ceil((low / rate) * size);
  for (let k = best; k < (high / rate) * size; k++) if (magnitude(bins, k) > magnitude(bins, best)) best = k;
  const [a, b, c] = [-1, 0, 1].map((step) => Math.log(magnitude(bins, best + step))) as [number, number, number];
  return ((best + (0.5 * (a - c)) / (a - 2 * b + c)) * rate) / size;
}
