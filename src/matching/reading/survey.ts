/** A first walk through a channel: range, gaps, values over the range, and the span of the samples block by block. */

export interface Survey {
  /** Of the finite samples. */
  readonly least: number;
  readonly greatest: number;
  readonly mean: number;
  readonly missing: number;
  /** Samples over the instrument's range, as it said itself. */
  readonly over: number;
  readonly blockSize: number;
  /** Greatest and least sample of each block; NaN where a block has none. */
  readonly high: Float32Array;
  readonly low: Float32Array;
}

/** Walks the samples once. The last block may be shorter. */
export function survey(samples: Float32Array, blockSize: number): Survey {
  const blocks = Math.ceil(samples.length / blockSize);
  const high = new Float32Array(blocks).fill(Number.NaN);
  const low = new Float32Array(blocks).fill(Number.NaN);
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let count = 0;
  let missing = 0;
  let over = 0;
  for (let block = 0; block < blocks; block++) {
    const end = Math.min(samples.length, (block + 1) * blockSize);
    let most = Number.NEGATIVE_INFINITY;
    let fewest = Number.POSITIVE_INFINITY;
    const start = block * blockSize;
    let blockSum = 0;
    for (let i = start; i < end; i++) {
      const value = samples[i]!;
      if (value > most) most = value;
      if (value < fewest) fewest = value;
      blockSum += value;
    }
    // NaN where a sample of the block is not finite: only such blocks are walked sample by sample.
    if (blockSum - blockSum === 0) {
      sum += blockSum;
      count += end - start;
    } else {
      most = Number.NEGATIVE_INFINITY;
      fewest = Number.POSITIVE_INFINITY;
      for (let i = start; i < end; i++) {
        const value = samples[i]!;
        // False for ±Infinity and NaN alike.
        if (value - value === 0) {
          if (value > most) most = value;
          if (value < fewest) fewest = value;
          sum += value;
          count++;
        } else if (Number.isNaN(value)) missing++;
        else over++;
      }
    }
    if (most < fewest) continue;
    high[block] = most;
    low[block] = fewest;
    if (most > greatest) greatest = most;
    if (fewest < least) least = fewest;
  }
  return { least, greatest, mean: count === 0 ? Number.NaN : sum / count, missing, over, blockSize, high, low };
}

/**
 * Half the span over each block and the next: the envelope of what swings within two blocks, blind to what is slower. 0 where there
 * are no samples. [blocks]
 */
export function spans({ high, low }: Survey): Float32Array {
  const span = new Float32Array(high.length);
  for (let block = 0; block < span.length; block++) {
    const next = Math.min(block + 1, span.length - 1);
    const top = Math.max(high[block]!, high[next]!);
    const bottom = Math.min(low[block]!, low[next]!);
    const value = (top - bottom) / 2;
    // False where a block has no samples.
    if (value > 0) span[block] = value;
  }
  return span;
}
