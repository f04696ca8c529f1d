/** The analytic signal of a stretch of samples: envelope and phase of what lies in a band. */
import { fourierTransform, powerOfTwoFrom } from "./fft.ts";
import { OutOfDomain } from "./out-of-domain.ts";

export interface AnalyticSignal {
  /** [samples] */
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/**
 * The samples of a band without its negative frequencies; real part = the band's signal, modulus = its envelope.
 *
 * Both ends are continued by their odd reflection, a quarter of the length at most, so that the transform meets no jump there; within
 * one period of the band's lower edge of an end the values are still less sure.
 *
 * @param samples  finite; at least 4
 * @param band     edges as parts of the sample rate, 0 ≤ low < high ≤ ½; the flanks are cosines of a third of the edge's frequency
 */
export function analyticSignal(samples: Float64Array, band: { low: number; high: number }): AnalyticSignal {
  const count = samples.length;
  if (count < 4) throw new OutOfDomain("analyticSignal", `at least 4 samples are needed, got ${count}`);
  if (!(band.low >= 0 && band.low < band.high && band.high <= 0.5))
    throw new OutOfDomain("analyticSignal", `0 ≤ low < high ≤ 0.5 is needed, got ${band.low} and ${band.high}`);
  const wanted = Math.ceil(2 / Math.max(band.low, 1e-3));
  const margin = Math.min(Math.floor(count / 4), wanted);
  const transform = fourierTransform(powerOfTwoFrom(count + 2 * margin));
  const { size } = transform;
  const input = transform.array();
  const spectrum = transform.array();
  const first = samples[0]!;
  const last = samples[count - 1]!;
  for (let i = 0; i < count; i++) input[2 * (margin + i)] = samples[i]!;
  for (let i = 1; i <= margin; i++) {
    // The reflection fades towards its far end, where it would meet the other one.
    const fade = 0.5 + 0.5 * Math.cos((Math.PI * i) / (margin + 1));
    input[2 * (margin - i)] = (2 * first - samples[i]!) * fade;
    input[2 * (margin + count - 1 + i)] = (2 * last - samples[count - 1 - i]!) * fade;
  }
  transform.forward(input, spectrum);
  for (let bin = 0; bin < size; bin++) {
    const frequency = bin / size;
    const gain = bin === 0 || bin > size / 2 ? 0 : 2 * passes(frequency, band);
    spectrum[2 * bin]! *= gain;
    spectrum[2 * bin + 1]! *= gain;
  }
  transform.inverse(spectrum, input);
  const real = new Float64Array(count);
  const imaginary = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    real[i] = input[2 * (margin + i)]!;
    imaginary[i] = input[2 * (margin + i) + 1]!;
  }
  return { real, imaginary };
}

/** Gain of the band at a frequency, with cosine flanks outside its edges. */
function passes(frequency: number, { low, high }: { low: number; high: number }): number {
  if (frequency < low) return flank((low - frequency) / (low / 3));
  return frequency > high ? flank((frequency - high) / (high / 3)) : 1;
}

function flank(distance: number): number {
  return distance >= 1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * distance);
}

/** Modulus of each value. */
export function envelopeOf({ real, imaginary }: AnalyticSignal): Float64Array {
  return real.map((re, i) => Math.hypot(re, imaginary[i]!));
}

/** Phase of each value [rad], without the jumps of a full turn. */
export function phaseOf({ real, imaginary }: AnalyticSignal): Float64Array {
  const phase = new Float64Array(real.length);
  let turns = 0;
  let before = 0;
  for (let i = 0; i < phase.length; i++) {
    const raw = Math.atan2(imaginary[i]!, real[i]!);
    if (i > 0) {
      if (raw - before > Math.PI) turns--;
      else if (before - raw > Math.PI) turns++;
    }
    before = raw;
    phase[i] = raw + 2 * Math.PI * turns;
  }
  return phase;
}
