/** What frequencies a record holds: the spectrum of a burst, and the lines that a train of such bursts has. */
import { fourierTransform } from "../../numerics/fft.ts";
import { medianOf } from "../../numerics/robust.ts";
import type { Burst } from "./bursts.ts";

export interface Spectrum {
  /** [Hz], from 0 up to half the rate that was worked with. */
  readonly frequency: Float64Array;
  /** Amplitude of a steady tone that would stand as high, in the channel's unit. */
  readonly amplitude: Float64Array;
}

export interface SpectralLine {
  readonly frequency: number;
  readonly amplitude: number;
  readonly kind: "repetition" | "carrier";
  /** Multiple of the repetition rate: from 0 for a repetition line, from the line nearest to the carrier for a carrier's. */
  readonly number: number;
}

const size = 1 << 13;
const mostBursts = 12;

/** Mean power spectrum of the bursts under a raised cosine. Undefined without bursts. */
export function spectrumOf(
  samples: Float32Array,
  bursts: readonly Burst[],
  { interval, frequency }: { interval: number; frequency: number },
): Spectrum | undefined {
  if (bursts.length === 0) return undefined;
  // Five harmonics above the carrier are kept where the record has them.
  const step = Math.max(1, Math.floor(1 / (frequency * 14)));
  const transform = fourierTransform(size);
  const input = transform.array();
  const output = transform.array();
  const power = new Float64Array(size / 2 + 1);
  const stride = Math.ceil(bursts.length / mostBursts);
  const chosen = bursts.filter((_, i) => i % stride === 0);
  for (const { from, to } of chosen) {
    const count = Math.min(size, Math.max(16, Math.floor((to - from) / step)));
    let weights = 0;
    const mean = meanOf(samples, from, from + count * step);
    input.fill(0);
    for (let n = 0; n < count; n++) {
      let sum = 0;
      for (let i = from + n * step; i < from + (n + 1) * step; i++) {
        const value = samples[i] ?? Number.NaN;
        sum += value - value === 0 ? value - mean : 0;
      }
      const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / count);
      weights += window;
      input[2 * n] = (sum / step) * window;
    }
    transform.forward(input, output);
    for (let bin = 0; bin < power.length; bin++)
      power[bin]! += (output[2 * bin]! ** 2 + output[2 * bin + 1]! ** 2) * (2 / weights) ** 2;
  }
  return {
    frequency: Float64Array.from(power, (_, bin) => bin / (size * step * interval)),
    amplitude: power.map((value) => Math.sqrt(value / chosen.length)),
  };
}

function meanOf(samples: Float32Array, from: number, to: number): number {
  let sum = 0;
  let count = 0;
  for (let i = from; i < Math.min(to, samples.length); i++) {
    const value = samples[i]!;
    if (value - value !== 0) continue;
    sum += value;
    count++;
  }
  return count === 0 ? 0 : sum / count;
}

const repetitionLines = 8;
const sidebands = 8;
const mostSamples = 200_000;

/**
 * The lines of a train that repeats this burst evenly: (2/T)·|∫ burst·exp(−2πi·f·t)| at multiples of the rate, some from 1 on and some
 * about the carrier. Each burst counts as alike; what jitter does to the lines is left out.
 */
export function linesOf(
  samples: Float32Array,
  burst: Burst,
  { interval, carrier, rate }: { interval: number; carrier: number; rate: number },
): readonly SpectralLine[] {
  const to = Math.min(burst.to, burst.from + mostSamples);
  const mean = meanOf(samples, burst.from, to);
  const amplitudeAt = (frequency: number): number => {
    const turn = 2 * Math.PI * frequency * interval;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    let [re, im, sumRe, sumIm] = [1, 0, 0, 0];
    for (let i = burst.from; i < to; i++) {
      const value = samples[i]!;
      const rest = value - value === 0 ? value - mean : 0;
      sumRe += rest * re;
      sumIm -= rest * im;
      const next = re * cos - im * sin;
      im = re * sin + im * cos;
      re = next;
    }
    return 2 * rate * interval * Math.hypot(sumRe, sumIm);
  };
  const line = (multiple: number, kind: SpectralLine["kind"], number: number): SpectralLine => ({
    frequency: multiple * rate,
    amplitude: amplitudeAt(multiple * rate),
    kind,
    number,
  });
  const centre = Math.round(carrier / rate);
  return [
    ...Array.from({ length: repetitionLines }, (_, i) => line(i + 1, "repetition", i + 1)),
    ...Array.from({ length: 2 * sidebands + 1 }, (_, i) => line(centre + i - sidebands, "carrier", i - sidebands)),
  ].filter(({ frequency }) => frequency > 0 && frequency < 0.5 / interval);
}

export interface FoldedLine {
  /** Where it stands, and the harmonic of the carrier that it is. */
  readonly frequency: number;
  readonly harmonic: number;
}

/** Harmonics of the carrier above half the sample rate that stand in the spectrum folded back. */
export function foldedLines(
  spectrum: Spectrum,
  { carrier, sampleRate }: { carrier: number; sampleRate: number },
): readonly FoldedLine[] {
  const resolution = spectrum.frequency[1] ?? 0;
  const top = spectrum.frequency[spectrum.frequency.length - 1] ?? 0;
  const floor = medianOf(spectrum.amplitude);
  const found: FoldedLine[] = [];
  for (const harmonic of [3, 5, 7]) {
    const overtone = harmonic * carrier;
    if (overtone < 0.5 * sampleRate) continue;
    const folded = Math.abs(overtone - sampleRate * Math.round(overtone / sampleRate));
    const width = Math.max(4 * resolution, 0.01 * carrier);
    // Only lines that stand apart from the carrier, its true harmonics and the ends of the spectrum can be told.
    if (folded > top - 4 * width || folded < 4 * width) continue;
    if ([1, 2, 3].some((own) => Math.abs(folded - own * carrier) < 0.25 * carrier && own * carrier < 0.5 * sampleRate))
      continue;
    const peak = greatest(spectrum, { low: folded - width, high: folded + width });
    const beside = Math.max(
      greatest(spectrum, { low: folded - 5 * width, high: folded - 3 * width }),
      greatest(spectrum, { low: folded + 3 * width, high: folded + 5 * width }),
    );
    if (peak > 6 * floor && peak > 3 * beside) found.push({ frequency: folded, harmonic });
  }
  return found;
}

function greatest({ frequency, amplitude }: Spectrum, { low, high }: { low: number; high: number }): number {
  const resolution = frequency[1] ?? 1;
  let most = 0;
  for (
    let bin = Math.max(0, Math.ceil(low / resolution));
    bin <= Math.min(amplitude.length - 1, high / resolution);
    bin++
  )
    most = Math.max(most, amplitude[bin]!);
  return most;
}
