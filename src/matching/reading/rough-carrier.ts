/** The strongest line of a record about its strongest place, to within a bin of the transform: the scale for everything that follows. */
import { fourierTransform, powerOfTwoFrom } from "../../numerics/fft.ts";
import { spans, survey } from "./survey.ts";

const mostSamples = 1 << 16;
/** Bins below this one hold drift and hum. */
const firstBin = 6;

export interface RoughCarrier {
  /** As a part of the sample rate, 0 … ½. */
  readonly frequency: number;
  /** Height of the line over the median of the spectrum about it. */
  readonly prominence: number;
}

/** Undefined where the channel has fewer than 32 samples or does not move. */
export function roughCarrier(samples: Float32Array): RoughCarrier | undefined {
  const count = samples.length;
  if (count < 32) return undefined;
  const size = Math.min(mostSamples, powerOfTwoFrom(count + 1) / (powerOfTwoFrom(count + 1) > count ? 2 : 1));
  const from = strongestPlace(samples, size);
  const transform = fourierTransform(size);
  const input = transform.array();
  const spectrum = transform.array();
  const { mean, slope, present } = lineOf(samples, from, size);
  if (present < size / 2) return undefined;
  for (let i = 0; i < size; i++) {
    const value = samples[from + i]!;
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / size);
    input[2 * i] = Number.isFinite(value) ? (value - mean - slope * (i - (size - 1) / 2)) * window : 0;
  }
  transform.forward(input, spectrum);
  const power = new Float64Array(size / 2);
  let best = 0;
  for (let bin = 0; bin < size / 2; bin++) {
    power[bin] = spectrum[2 * bin]! ** 2 + spectrum[2 * bin + 1]! ** 2;
    if (bin >= firstBin && (best === 0 || power[bin]! > power[best]!)) best = bin;
  }
  const most = power[best] ?? 0;
  if (!(most > 0)) return undefined;
  const middle = Float64Array.from(power.subarray(firstBin)).sort()[(power.length - firstBin) >> 1] ?? 0;
  return { frequency: best / size, prominence: Math.sqrt(most / Math.max(middle, most * 1e-14)) };
}

/** First sample of the stretch of `size` whose inner part moves most. */
function strongestPlace(samples: Float32Array, size: number): number {
  const room = samples.length - size;
  if (room <= 0) return 0;
  const block = Math.max(16, size >> 10);
  const span = spans(survey(samples, block));
  const width = Math.floor(size / 2 / block);
  let sum = 0;
  let best = 0;
  let most = -1;
  for (let end = 0; end < span.length; end++) {
    sum += span[end]! ** 2 - (end >= width ? span[end - width]! ** 2 : 0);
    if (sum > most) {
      most = sum;
      best = end;
    }
  }
  const centre = (best - width / 2) * block;
  return Math.max(0, Math.min(room, Math.round(centre - size / 2)));
}

function lineOf(samples: Float32Array, from: number, size: number): { mean: number; slope: number; present: number } {
  let present = 0;
  let sum = 0;
  let moment = 0;
  let spread = 0;
  for (let i = 0; i < size; i++) {
    const value = samples[from + i]!;
    if (!Number.isFinite(value)) continue;
    const x = i - (size - 1) / 2;
    present++;
    sum += value;
    moment += x * value;
    spread += x * x;
  }
  return { mean: present > 0 ? sum / present : 0, slope: spread > 0 ? moment / spread : 0, present };
}
