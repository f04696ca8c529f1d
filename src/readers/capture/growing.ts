/** Columns that grow while rows arrive: blocks of fixed size, put together once at the end. */

const blockBits = 18;
const blockSize = 1 << blockBits;

/** A column of a block of rows: `count` numbers from `from` on, `stride` apart, times `factor`, and `offset` more. */
export interface Strided {
  readonly values: Float64Array;
  readonly from: number;
  readonly stride: number;
  readonly count: number;
  readonly factor: number;
  readonly offset: number;
}

/** Times by the row [s]. */
export interface Times {
  readonly length: number;
  /** True where it is known that no time is before the one above it, and none is missing. */
  readonly rising?: boolean;
  /** NaN where there is none. */
  at(row: number): number;
  /** Fills the list with the times from a row on, as far as there are any; for passes over all of them. */
  copy(into: Float64Array, from: number): void;
}

/** `copy` of times that are known one by one. */
export function copyEach(times: Pick<Times, "length" | "at">, into: Float64Array, from: number): void {
  const count = Math.min(into.length, times.length - from);
  for (let i = 0; i < count; i++) into[i] = times.at(from + i);
}

export class GrowingTimes implements Times {
  private readonly blocks: Float64Array[] = [];
  length = 0;
  /** No time so far was before the one above it, and none was missing. */
  rising = true;
  private last = Number.NEGATIVE_INFINITY;

  append({ values, from, stride, count, factor }: Strided): void {
    let at = from;
    for (let done = 0; done < count; ) {
      const within = this.length % blockSize;
      if (within === 0) this.blocks.push(new Float64Array(blockSize));
      const block = this.blocks[this.blocks.length - 1] as Float64Array;
      const step = Math.min(count - done, blockSize - within);
      for (let i = within; i < within + step; i++, at += stride) {
        const time = values[at]! * factor;
        // False for NaN too.
        if (!(time >= this.last)) this.rising = false;
        this.last = time;
        block[i] = time;
      }
      done += step;
      this.length += step;
    }
  }

  at(index: number): number {
    // Whole and below 2^31: shifts are faster than a division here, and every pass over the times comes through.
    return this.blocks[index >> blockBits]?.[index & (blockSize - 1)] ?? Number.NaN;
  }

  copy(into: Float64Array, from: number): void {
    const end = Math.min(this.length, from + into.length);
    for (let row = from; row < end; ) {
      const within = row & (blockSize - 1);
      const count = Math.min(end - row, blockSize - within);
      into.set(this.blocks[row >> blockBits]!.subarray(within, within + count), row - from);
      row += count;
    }
  }
}

/**
 * By the instruments' common command language an overrange is 9.9E37 and no number 9.91E37 (SCPI-1999, volume 1, 7.2.1; from memory).
 * Nothing that an instrument measures comes near.
 */
const notMeasured = 9e36;
const notANumber = 9.905e37;

/** A list that was made longer than its values by this part of it is handed on as it is: what was never written takes no memory. */
const mostUnused = 0.1;

export class GrowingSamples {
  private readonly blocks: Float32Array[] = [];
  /** Values in the last block. */
  private filled = 0;
  length = 0;
  /** Values so far that were the instrument's mark for an overrange. */
  marked = 0;
  /** Values so far that are no whole numbers, where `whole` ones were expected. */
  broken = 0;
  private readonly whole: boolean;

  /** @param expected  values that will probably come: as many stand in one list, which then need not be put together */
  constructor({ whole = false, expected = 0 }: { whole?: boolean; expected?: number } = {}) {
    this.whole = whole;
    if (expected > blockSize) this.blocks.push(new Float32Array(expected));
  }

  append({ values, from, stride, count, factor, offset }: Strided): void {
    if (this.whole)
      for (let i = 0, read = from; i < count; i++, read += stride) if (values[read]! % 1 !== 0) this.broken++;
    let at = from;
    for (let done = 0; done < count; ) {
      const block = this.open();
      const within = this.filled;
      const step = Math.min(count - done, block.length - within);
      for (let i = within; i < within + step; i++, at += stride) {
        const value = values[at]!;
        block[i] = value > notMeasured || value < -notMeasured ? this.unmeasured(value) : value * factor + offset;
      }
      done += step;
      this.filled += step;
      this.length += step;
    }
  }

  /** The last block, or another behind it where it is full. */
  private open(): Float32Array {
    const last = this.blocks[this.blocks.length - 1];
    if (last !== undefined && this.filled < last.length) return last;
    const next = new Float32Array(blockSize);
    this.blocks.push(next);
    this.filled = 0;
    return next;
  }

  private unmeasured(value: number): number {
    if (Number.isFinite(value)) this.marked++;
    if (value > notANumber && Number.isFinite(value)) return Number.NaN;
    return value > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  }

  /** All values in one array; blocks that have to be put together are given up one by one, so that hardly more than the array is held. */
  take(): Float32Array {
    const { length } = this;
    const [only] = this.blocks;
    this.length = 0;
    if (only !== undefined && this.blocks.length === 1 && only.length - length <= mostUnused * only.length) {
      this.blocks.pop();
      return only.subarray(0, length);
    }
    const whole = new Float32Array(length);
    let end = length;
    for (let count = this.filled; this.blocks.length > 0; count = this.blocks.at(-1)?.length ?? 0) {
      end -= count;
      whole.set(this.blocks.pop()!.subarray(0, count), end);
    }
    return whole;
  }
}
