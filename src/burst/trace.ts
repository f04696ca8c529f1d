/** Every step of a burst, kept so that each waveform can be evaluated exactly at any time afterwards. */
import type { Second } from "../units/si.ts";

/** What stands before the state in each record: start time, duration, way and streamer. */
const head = 3;

/** Steps in the order of time. A record is the start time, how long the step was in force, its branch, and the state at its start. */
export class StepTrace {
  count = 0;
  readonly #size: number;
  #records: Float64Array;

  /** @param size  length of a state vector */
  constructor(size: number) {
    this.#size = size;
    this.#records = new Float64Array((head + size) * 256);
  }

  /** @param branch  number of the way, plus 8 where the streamer is there */
  add(start: Second, duration: Second, branch: number, x: Float64Array): void {
    const length = head + this.#size;
    if ((this.count + 1) * length > this.#records.length) {
      const larger = new Float64Array(this.#records.length * 2);
      larger.set(this.#records);
      this.#records = larger;
    }
    const at = this.count * length;
    const records = this.#records;
    records[at] = start;
    records[at + 1] = duration;
    records[at + 2] = branch;
    for (let j = 0; j < this.#size; j++) records[at + head + j] = x[j]!;
    this.count++;
  }

  startOf(step: number): Second {
    return this.#records[step * (head + this.#size)]!;
  }

  durationOf(step: number): Second {
    return this.#records[step * (head + this.#size) + 1]!;
  }

  branchOf(step: number): number {
    return this.#records[step * (head + this.#size) + 2]!;
  }

  /** A view, not a copy. */
  stateOf(step: number): Float64Array {
    const at = step * (head + this.#size) + head;
    return this.#records.subarray(at, at + this.#size);
  }

  /** The step in force at a time: the last one that begins at or before it; 0 before the first. */
  stepAt(time: Second): number {
    let low = 0;
    let high = this.count - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.startOf(middle) <= time) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** A copy that holds no more than it must. */
  trimmed(): StepTrace {
    const copy = new StepTrace(this.#size);
    copy.#records = this.#records.slice(0, this.count * (head + this.#size));
    copy.count = this.count;
    return copy;
  }
}
