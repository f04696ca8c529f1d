/** The driver: comparator, pure delay, dead time, enable window, trip. It knows the time and what it was told, no circuit. */
import type { BurstNetwork } from "../circuit/network.ts";
import type { Ampere, Second } from "../units/si.ts";

export type Side = "upper" | "lower";

/** The gates after a change. `current` is the primary's at that instant. */
export interface GateChange {
  readonly time: Second;
  readonly upper: boolean;
  readonly lower: boolean;
  readonly current: Ampere;
}

/** One burst as asked for: the enable window, how it ends, and how long to look on. */
export interface Pulse {
  readonly onTime: Second;
  /** `immediate`: both sides go off at the end of the window. `synchronous`: at the first delayed change of the comparator from then on. */
  readonly burstEnd: "immediate" | "synchronous";
  /** From the start of the window to the end of the simulation; at least the on-time to see the whole burst. */
  readonly endTime: Second;
}

const never = Number.POSITIVE_INFINITY;
const other = (side: Side): Side => (side === "upper" ? "lower" : "upper");

/**
 * The switching rule.
 *
 * 1. From t = 0 the upper side is on, the start-up kick.
 * 2. A change of the comparator reaches the gates `delay` later. The side that was on goes off at that moment, the other goes on
 *    after the dead time. A side that waits out its dead time is forgotten when the next change comes first.
 * 3. An immediate end puts both sides off at the on-time; a synchronous end, or a synchronous trip, at the first delayed change
 *    from then on.
 * 4. An oscillator of its own changes the gates at every half period, the first half period being the kick.
 */
export class Driver {
  upper = false;
  lower = false;
  /** What the comparator asks for. */
  asked: Side = "upper";
  /** Both sides are off for good. */
  over = false;
  offTime: Second | undefined;
  offCurrent: Ampere | undefined;
  tripTime: Second | undefined;
  readonly commutations: Second[] = [];
  readonly changes: GateChange[] = [];

  readonly #pulse: Pulse;
  readonly #delay: Second;
  readonly #deadTime: Second;
  readonly #halfPeriod: Second | undefined;
  #halfPeriods = 0;
  #windowOpen = true;
  #endsAtChange = false;
  #lastOn: Side = "upper";
  #waiting: Side | undefined;
  #waitingUntil: Second = never;
  readonly #queue: { time: Second; side: Side }[] = [];
  #queueHead = 0;

  /** @param driven  false: the window never opens, both sides stay off */
  constructor(network: BurstNetwork, pulse: Pulse, driven: boolean) {
    const { sense, delay } = network.feedback;
    this.#pulse = pulse;
    this.#delay = delay;
    this.#deadTime = network.deadTime;
    this.#halfPeriod = typeof sense === "object" ? 0.5 / sense.fixedFrequency : undefined;
    if (driven) {
      this.upper = true;
    } else {
      this.over = true;
      this.offTime = 0;
      this.offCurrent = 0;
    }
  }

  /** Whether the comparator has a say. */
  get listens(): boolean {
    return !this.over && this.#halfPeriod === undefined;
  }

  /** When the next thing happens by the clock alone. */
  next(): Second {
    if (this.over) return never;
    let next = this.#waitingUntil;
    const queued = this.#queue[this.#queueHead];
    if (queued && queued.time < next) next = queued.time;
    if (this.#halfPeriod !== undefined) next = Math.min(next, (this.#halfPeriods + 1) * this.#halfPeriod);
    if (this.#windowOpen && this.#pulse.onTime < next) next = this.#pulse.onTime;
    return next;
  }

  /** The comparator changed its mind. */
  ask(time: Second): void {
    this.asked = other(this.asked);
    this.#queue.push({ time: time + this.#delay, side: this.asked });
  }

  /** The primary current has reached the limit. */
  trip(time: Second, current: Ampere, action: "synchronous" | "immediate"): void {
    this.tripTime = time;
    if (action === "immediate") this.#putOff(time, current);
    else this.#endsAtChange = true;
  }

  /** Does everything that is due, in the order: end of the window, delayed changes, ends of dead times. */
  act(time: Second, current: Ampere): void {
    if (this.#windowOpen && this.#pulse.onTime <= time) {
      this.#windowOpen = false;
      if (this.#pulse.burstEnd === "synchronous") this.#endsAtChange = true;
      else if (!this.over) this.#putOff(time, current);
    }
    if (this.#halfPeriod !== undefined) {
      while (!this.over && (this.#halfPeriods + 1) * this.#halfPeriod <= time) {
        this.#halfPeriods++;
        this.#change(this.#halfPeriods % 2 === 1 ? "lower" : "upper", time, current);
      }
    }
    while (!this.over) {
      const due = this.#queue[this.#queueHead];
      if (!due || due.time > time) break;
      this.#queueHead++;
      this.#change(due.side, time, current);
    }
    if (!this.over && this.#waiting && this.#waitingUntil <= time) this.#putOn(this.#waiting, time, current);
  }

  #change(side: Side, time: Second, current: Ampere): void {
    if (this.#endsAtChange) {
      this.#putOff(time, current);
      return;
    }
    this.upper = false;
    this.lower = false;
    if (this.#deadTime > 0) {
      this.#waiting = side;
      this.#waitingUntil = time + this.#deadTime;
      this.#note(time, current);
    } else {
      this.#putOn(side, time, current);
    }
  }

  #putOn(side: Side, time: Second, current: Ampere): void {
    this.#waiting = undefined;
    this.#waitingUntil = never;
    this.upper = side === "upper";
    this.lower = side === "lower";
    if (side !== this.#lastOn) this.commutations.push(time);
    this.#lastOn = side;
    this.#note(time, current);
  }

  #putOff(time: Second, current: Ampere): void {
    this.upper = false;
    this.lower = false;
    this.over = true;
    this.offTime = time;
    this.offCurrent = current;
    this.#note(time, current);
  }

  #note(time: Second, current: Ampere): void {
    this.changes.push({ time, upper: this.upper, lower: this.lower, current });
  }
}
