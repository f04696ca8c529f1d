/** The fundamental of a harmonic sound: the frequency whose multiples together hold most of the power. */
import { fourierTransform, powerOfTwoFrom } from "./fft.ts";
import { OutOfDomain } from "./out-of-domain.ts";
import { medianOf } from "./robust.ts";

export interface HarmonicFit {
  /** Cycles per sample. */
  readonly fundamental: number;
  /** Standard error of the fundamental. */
  readonly error: number;
  /** Amplitude of each multiple, from 1 on. */
  readonly amplitudes: readonly number[];
  /** Part of the power (mean taken away) that the multiples hold, 0 … 1. */
  readonly share: number;
}

/** A lower candidate is a fraction of the true fundamental where a higher one holds nearly as much. */
const nearlyAsMuch = 0.9;

/**
 * Nonlinear least squares for a sum of harmonics, in its form for many periods: the sum of the periodogram at the multiples is
 * maximised, on a grid first, then by golden section.
 *
 * @param samples    finite, at least 64
 * @param bounds     of the fundamental, cycles per sample, 0 < low < high < ½
 * @param harmonics  multiples that are counted
 * @returns  undefined for silence
 * @validity  the standard error is the Cramér–Rao bound for steady amplitudes in noise whose spectrum is smooth about each multiple
 * @source    A. Nehorai, B. Porat, IEEE Trans. ASSP 34 (1986) 1124; from memory
 */
export function fitHarmonics(
  samples: Float64Array,
  { low, high, harmonics }: { low: number; high: number; harmonics: number },
): HarmonicFit | undefined {
  const count = samples.length;
  if (count < 64 || !(low > 0 && low < high && high < 0.5) || harmonics < 1)
    throw new OutOfDomain(
      "fitHarmonics",
      `64 samples and 0 < low < high < ½ are needed, got ${count}, ${low}, ${high}`,
    );
  const mean = samples.reduce((sum, value) => sum + value, 0) / count;
  const power = samples.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  if (!(power > 0)) return undefined;
  const spectrum = spectrumOf(samples, mean);
  const size = 2 * (spectrum.length - 1);
  const sumAt = (fundamental: number): number => {
    let sum = 0;
    for (let h = 1; h <= harmonics && h * fundamental < 0.5; h++) sum += spectrum[Math.round(h * fundamental * size)]!;
    return sum;
  };
  // Bins of the padded transform are half a natural one apart; the highest multiple must not step over one.
  const stride = 0.5 / (size * harmonics);
  let most = 0;
  for (let f = low; f <= high; f += stride * harmonics) most = Math.max(most, sumAt(f));
  let best = low;
  let greatest = 0;
  for (let f = low; f <= high; f += stride) {
    const sum = sumAt(f);
    if (sum > greatest) {
      greatest = sum;
      best = f;
    }
  }
  for (let part = Math.floor(high / best); part > 1; part--) {
    const candidate = peakNear(sumAt, best * part, 1 / count);
    if (candidate.sum >= nearlyAsMuch * greatest) {
      best = candidate.at;
      break;
    }
  }
  return refined(samples, { mean, power, best, harmonics });
}

function peakNear(sumAt: (f: number) => number, centre: number, width: number): { at: number; sum: number } {
  let found = { at: centre, sum: sumAt(centre) };
  for (let n = -20; n <= 20; n++) {
    const at = centre + (n * width) / 20;
    const sum = sumAt(at);
    if (sum > found.sum) found = { at, sum };
  }
  return found;
}

/** |Σ x·exp(−2πi·f·n)|² on the bins of a transform twice as long. [size/2 + 1] */
function spectrumOf(samples: Float64Array, mean: number): Float64Array {
  const size = powerOfTwoFrom(2 * samples.length);
  const transform = fourierTransform(size);
  const input = transform.array();
  const output = transform.array();
  for (let n = 0; n < samples.length; n++) input[2 * n] = samples[n]! - mean;
  transform.forward(input, output);
  return Float64Array.from({ length: size / 2 + 1 }, (_, bin) => output[2 * bin]! ** 2 + output[2 * bin + 1]! ** 2);
}

/** Samples that are turned together while the fundamental is refined: it moves by far less than a turn over them. */
const block = 64;

function refined(
  samples: Float64Array,
  { mean, power, best, harmonics }: { mean: number; power: number; best: number; harmonics: number },
): HarmonicFit {
  const count = samples.length;
  const used = Math.max(1, Math.min(harmonics, Math.ceil(0.5 / best) - 1));
  const blocks = Math.ceil(count / block);
  // Each multiple is brought down to zero frequency block by block; what is left turns slowly.
  const re = new Float64Array(used * blocks);
  const im = new Float64Array(used * blocks);
  for (let h = 0; h < used; h++) {
    const turn = 2 * Math.PI * (h + 1) * best;
    for (let b = 0; b < blocks; b++) {
      for (let n = b * block; n < Math.min(count, (b + 1) * block); n++) {
        re[h * blocks + b]! += (samples[n]! - mean) * Math.cos(turn * n);
        im[h * blocks + b]! -= (samples[n]! - mean) * Math.sin(turn * n);
      }
    }
  }
  const powersAt = (off: number): readonly number[] =>
    Array.from({ length: used }, (_, h) => {
      let sumRe = 0;
      let sumIm = 0;
      for (let b = 0; b < blocks; b++) {
        const angle = 2 * Math.PI * (h + 1) * off * (b + 0.5) * block;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        sumRe += re[h * blocks + b]! * c + im[h * blocks + b]! * s;
        sumIm += im[h * blocks + b]! * c - re[h * blocks + b]! * s;
      }
      return sumRe * sumRe + sumIm * sumIm;
    });
  const total = (off: number) => powersAt(off).reduce((sum, value) => sum + value, 0);
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [left, right] = [-0.5 / count, 0.5 / count];
  for (let n = 0; n < 40; n++) {
    const a = right - ratio * (right - left);
    const b = left + ratio * (right - left);
    if (total(a) > total(b)) right = b;
    else left = a;
  }
  const off = (left + right) / 2;
  const fundamental = best + off;
  const amplitudes = powersAt(off).map((value) => (2 * Math.sqrt(value)) / count);
  const rest = spectrumOf(residualOf(samples, { mean, fundamental, used }), 0);
  let slope = 0;
  let doubt = 0;
  for (const [h, amplitude] of amplitudes.entries()) {
    const weight = ((h + 1) * amplitude) ** 2;
    slope += weight;
    doubt += weight * noiseNear(rest, { frequency: (h + 1) * fundamental, count, fundamental });
  }
  const error = slope > 0 ? Math.sqrt((24 * doubt) / (count ** 3 * slope * slope)) / (2 * Math.PI) : fundamental;
  const held = amplitudes.reduce((sum, amplitude) => sum + (amplitude * amplitude * count) / 2, 0);
  return { fundamental, error, amplitudes, share: Math.min(1, held / power) };
}

/** What the multiples leave over: their own leakage must not count as noise. */
function residualOf(
  samples: Float64Array,
  { mean, fundamental, used }: { mean: number; fundamental: number; used: number },
): Float64Array {
  const rest = samples.map((value) => value - mean);
  for (let h = 1; h <= used; h++) {
    const turn = 2 * Math.PI * h * fundamental;
    let [re, im] = [0, 0];
    for (let n = 0; n < rest.length; n++) {
      re += (2 * rest[n]! * Math.cos(turn * n)) / rest.length;
      im += (2 * rest[n]! * Math.sin(turn * n)) / rest.length;
    }
    for (let n = 0; n < rest.length; n++) rest[n]! -= re * Math.cos(turn * n) + im * Math.sin(turn * n);
  }
  return rest;
}

/** Variance per sample of the noise about a multiple: median of the bins between it and its neighbours. */
function noiseNear(
  spectrum: Float64Array,
  { frequency, count, fundamental }: { frequency: number; count: number; fundamental: number },
): number {
  const size = 2 * (spectrum.length - 1);
  const bins: number[] = [];
  for (const side of [-1, 1]) {
    const from = Math.round((frequency + side * 0.25 * fundamental) * size);
    const to = Math.round((frequency + side * 0.5 * fundamental) * size);
    const step = Math.max(1, Math.floor(Math.abs(to - from) / 50));
    for (let bin = Math.min(from, to); bin <= Math.max(from, to); bin += step)
      if (bin > 0 && bin < spectrum.length) bins.push(spectrum[bin]!);
  }
  // The median of an exponential distribution is ln 2 of its mean.
  return bins.length === 0 ? 0 : medianOf(bins) / Math.LN2 / count;
}
