/** Pulses as plain arrays: what sound is made of, whoever planned it. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Second } from "../units/si.ts";

/** One entry per pulse, in order of `start`; arrays of equal length [s]. A pulse with an on-time of 0 is none. */
export interface PulseTrain {
  readonly start: Float64Array;
  readonly onTime: Float64Array;
  /** How long it lasts, silence at the end included. */
  readonly duration: Second;
}

/** Longest train that is made into samples: a day. */
const longest = 86_400;

/** @throws OutOfDomain  lengths differ, a time is not finite or negative, starts go back, or the train is longer than a day */
export function checkTrain(where: string, { start, onTime, duration }: PulseTrain): void {
  if (start.length !== onTime.length)
    throw new OutOfDomain(where, `start and onTime must be equally long, got ${start.length} and ${onTime.length}`);
  if (!(duration >= 0 && duration <= longest))
    throw new OutOfDomain(where, `duration must be 0 to ${longest} s, got ${duration} s`);
  let last = 0;
  for (let i = 0; i < start.length; i++) {
    const [begin, on] = [start[i] ?? Number.NaN, onTime[i] ?? Number.NaN];
    if (!(begin >= last && begin <= longest && on >= 0 && on <= 1))
      throw new OutOfDomain(
        where,
        `pulse ${i} must start after the one before and last 0 to 1 s, got ${begin} s and ${on} s`,
      );
    last = begin;
  }
}
