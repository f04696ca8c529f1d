/** Every pulse that a song asks for, in order of time. */
import type { Second } from "../units/si.ts";

/** Arrays that grow; `count` entries of each are in use. */
export class WantedPulses {
  count = 0;
  note = new Int32Array(1024);
  start = new Float64Array(1024);
  onTime = new Float64Array(1024);
  /** On-time after what concerns its own note alone; 0 where it is dropped already. */
  planned = new Float64Array(1024);
  /** By how much it may move either way. */
  slack = new Float64Array(1024);
  /** Index into `reasons`. */
  reason = new Uint8Array(1024);

  add({ note, start, onTime, planned, slack, reason }: WantedPulse): void {
    if (this.count === this.note.length) this.grow();
    const at = this.count++;
    this.note[at] = note;
    this.start[at] = start;
    this.onTime[at] = onTime;
    this.planned[at] = planned;
    this.slack[at] = slack;
    this.reason[at] = reason;
  }

  private grow(): void {
    const size = 2 * this.note.length;
    const larger = <T extends Int32Array | Float64Array | Uint8Array>(made: T, from: T): T => {
      made.set(from);
      return made;
    };
    this.note = larger(new Int32Array(size), this.note);
    this.start = larger(new Float64Array(size), this.start);
    this.onTime = larger(new Float64Array(size), this.onTime);
    this.planned = larger(new Float64Array(size), this.planned);
    this.slack = larger(new Float64Array(size), this.slack);
    this.reason = larger(new Uint8Array(size), this.reason);
  }
}

export interface WantedPulse {
  readonly note: number;
  readonly start: Second;
  readonly onTime: Second;
  readonly planned: Second;
  readonly slack: Second;
  readonly reason: number;
}
