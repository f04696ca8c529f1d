/** A short band-limited pulse, tabled between the samples, so that it can be placed at any fraction of a sample. */
import type { Hertz, Second } from "../units/si.ts";

export interface Kernel {
  /** Samples that one pulse touches. */
  readonly taps: number;
  /** Steps within a sample; the table has one row more, for the straight line between the last step and the next sample. */
  readonly phases: number;
  /** [(phases + 1) × taps], row-major: row p is the pulse delayed by p/phases of a sample. Each row sums to 1. */
  readonly table: Float64Array;
  /** From the pulse's centre to the first sample of its row, for a delay of 0. */
  readonly lead: number;
  /** Greatest absolute value of a row. */
  readonly peak: number;
}

/** Samples on either side of the low-pass's impulse response. */
const sideTaps = 16;
/** Edge of the low-pass as a share of the sample rate; the window falls to 80 dB by half the rate. */
const cutoff = 0.42;
const kaiserBeta = 8;

/**
 * A raised cosine of full width `width` and area 1, through a windowed-sinc low-pass.
 *
 * @param rate   samples per second
 * @param width  of the pulse; below a sample it is the low-pass's own impulse response that remains
 * @validity  passband flat within 0.1 dB to 0.38 of the rate; the straight line between 256 phases (64 for pulses wider than 8 samples)
 *            leaves errors below −80 dB
 */
export function kernelOf({ rate, width }: { rate: Hertz; width: Second }): Kernel {
  const span = width * rate;
  const phases = span > 8 ? 64 : 256;
  const half = Math.ceil(sideTaps + span / 2);
  const taps = 2 * half + 1;
  const fine = smeared({ span, phases, half: half + 1 });
  const table = new Float64Array((phases + 1) * taps);
  let peak = 0;
  for (let phase = 0; phase <= phases; phase++) {
    const row = table.subarray(phase * taps, (phase + 1) * taps);
    let sum = 0;
    for (let tap = 0; tap < taps; tap++) {
      // The fine table is centred at (half + 1)·phases; a delay moves the pulse to the right.
      const value = fine[(tap + 1) * phases - phase] ?? 0;
      row[tap] = value;
      sum += value;
    }
    // Each row sums to 1 exactly, so that a push and a pull of equal size leave nothing at 0 Hz.
    for (let tap = 0; tap < taps; tap++) {
      row[tap] = (row[tap] ?? 0) / sum;
      peak = Math.max(peak, Math.abs(row[tap] ?? 0));
    }
  }
  return { taps, phases, table, lead: half, peak };
}

/** The low-pass's impulse response averaged over the raised cosine, `phases` points a sample, from −half to half. */
function smeared({ span, phases, half }: { span: number; phases: number; half: number }): Float64Array {
  const length = 2 * half * phases + 1;
  const sharp = new Float64Array(length);
  for (let i = 0; i < length; i++) sharp[i] = lowPass((i - half * phases) / phases);
  const reach = Math.floor((span / 2) * phases);
  if (reach < 1) return sharp;
  const weights = Float64Array.from(
    { length: 2 * reach + 1 },
    (_, k) => 1 + Math.cos((Math.PI * (k - reach)) / (reach + 1)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const wide = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    let sum = 0;
    for (let k = Math.max(0, i + reach - length + 1); k <= Math.min(2 * reach, i + reach); k++)
      sum += (weights[k] ?? 0) * (sharp[i + reach - k] ?? 0);
    wide[i] = sum / total;
  }
  return wide;
}

function lowPass(sample: number): number {
  const x = sample / sideTaps;
  if (Math.abs(x) >= 1) return 0;
  const window = besselI0(kaiserBeta * Math.sqrt(1 - x * x)) / besselI0(kaiserBeta);
  const angle = 2 * Math.PI * cutoff * sample;
  return window * (angle === 0 ? 1 : Math.sin(angle) / angle);
}

/** Modified Bessel function of order 0 by its power series, for arguments of a window's size. */
function besselI0(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
