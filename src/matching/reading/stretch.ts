/** A piece of a channel as the fits take it: double precision, NaN where a sample does not count, a few samples to a cycle. */

export interface Stretch {
  /** [length], NaN where no sample counts. */
  readonly values: Float64Array;
  /** Place of the first value in the record, in samples; not whole where several were averaged. */
  readonly from: number;
  /** Samples of the record to one value. */
  readonly step: number;
}

export interface Trusted {
  readonly samples: Float32Array;
  /** At or beyond these levels the instrument may have clipped: such samples do not count. */
  readonly below: number;
  readonly above: number;
}

/**
 * The samples from `from` to `to`, averaged by `step`. A damped sinusoid averaged over equal blocks is a damped sinusoid of the same
 * decay and frequency: nothing is lost but noise.
 */
export function stretchOf(
  { samples, below, above }: Trusted,
  { from, to, step }: { from: number; to: number; step: number },
): Stretch {
  const first = Math.max(0, Math.floor(from));
  const count = Math.max(0, Math.floor((Math.min(samples.length, to) - first) / step));
  const values = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    let sum = 0;
    const start = first + n * step;
    for (let i = start; i < start + step; i++) {
      const value = samples[i]!;
      sum += value > below && value < above ? value : Number.NaN;
    }
    values[n] = sum / step;
  }
  return { values, from: first + (step - 1) / 2, step };
}

/**
 * The values with gaps of at most `longest` bridged by the cubic through the values and slopes at either side, as a clipped half-cycle
 * goes on over the instrument's range; 0 in longer gaps.
 */
export function bridged(values: Float64Array, longest: number): Float64Array {
  const out = Float64Array.from(values, (value) => (Number.isNaN(value) ? 0 : value));
  for (let n = 0; n < values.length; n++) {
    if (!Number.isNaN(values[n]!)) continue;
    const first = n;
    while (n < values.length && Number.isNaN(values[n]!)) n++;
    const [a, b] = [values[first - 1], values[n]];
    if (n - first > longest || a === undefined || b === undefined) continue;
    const width = n - first + 1;
    const rise = width * slopeOf(a, values[first - 2], a - (values[first - 2] ?? a));
    const fall = width * slopeOf(b, values[n + 1], (values[n + 1] ?? b) - b);
    for (let i = first; i < n; i++) {
      const t = (i - first + 1) / width;
      out[i] = a + t * (b - a) + t * (1 - t) * ((1 - t) * (rise - (b - a)) - t * (fall - (b - a)));
    }
  }
  return out;
}

/** 0 beside a gap of one value only, where no slope is seen. */
function slopeOf(value: number, beside: number | undefined, slope: number): number {
  return beside === undefined || Number.isNaN(beside) || Number.isNaN(value) ? 0 : slope;
}

/** Undefined for fewer than twenty values. */
export function varianceOf(values: Float64Array): number | undefined {
  const finite = values.filter((value) => Number.isFinite(value));
  if (finite.length < 20) return undefined;
  const mean = finite.reduce((sum, value) => sum + value, 0) / finite.length;
  return finite.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (finite.length - 1);
}
