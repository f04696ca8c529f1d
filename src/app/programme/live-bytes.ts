/**
 * MIDI bytes: what goes to the controller, and what comes from a keyboard. Pure.
 * @source midi-1
 */

/** A key of a keyboard, 69 is 440 Hz, struck or let go. */
export interface KeyStroke {
  readonly key: number;
  /** 0 to 1; 0 lets it go. */
  readonly velocity: number;
}

/** Active sensing: sent again and again, it says that somebody is there. */
export const heartbeat: readonly number[] = [0xfe];
/** [ms] between two of them. */
export const heartbeatEvery = 100;
/** All sound off, then all notes off. */
export const silence: readonly number[] = [0xb0, 0x78, 0, 0xb0, 0x7b, 0];
/** Of the line. */
export const baudRate = 31_250;

const seven = (value: number): number => Math.min(127, Math.max(0, Math.round(value)));

/** Note on or note off on channel 1. A stroke is never a velocity of 0, which would let go. Nothing for a key that MIDI does not have. */
export function strokeBytes({ key, velocity }: KeyStroke): number[] {
  const number = Math.round(key);
  if (!(number >= 0 && number <= 127 && velocity >= 0)) return [];
  return velocity > 0 ? [0x90, number, Math.max(1, seven(127 * velocity))] : [0x80, number, 0];
}

/** Notes as the controller can follow them: arrays of one length, in order of start. */
export interface PlayedNotes {
  readonly start: ArrayLike<number>;
  readonly end: ArrayLike<number>;
  readonly pitch: ArrayLike<number>;
  readonly velocity: ArrayLike<number>;
  readonly voice: ArrayLike<number>;
  /** 1 where it has no pitch: it is not sent. */
  readonly noise: ArrayLike<number>;
}

/** What starts and ends in a stretch [from, to) of a song: ends before starts of the same moment, all in order of time. */
export function songBytes(
  { start, end, pitch, velocity, voice, noise }: PlayedNotes,
  { from, to, muted }: { readonly from: number; readonly to: number; readonly muted: readonly number[] },
): number[] {
  const events: { readonly at: number; readonly stroke: KeyStroke }[] = [];
  for (let n = 0; n < start.length; n++) {
    const begins = start[n] ?? 0;
    if (begins >= to) break;
    if (noise[n] === 1 || muted.includes(voice[n] ?? 0)) continue;
    const key = pitch[n] ?? 0;
    const ends = end[n] ?? 0;
    if (begins >= from) events.push({ at: begins, stroke: { key, velocity: velocity[n] ?? 0 } });
    if (ends >= from && ends < to) events.push({ at: ends, stroke: { key, velocity: 0 } });
  }
  return events
    .sort((a, b) => a.at - b.at || a.stroke.velocity - b.stroke.velocity)
    .flatMap(({ stroke }) => strokeBytes(stroke));
}

/** What a message of a keyboard says: a key, or that all are let go. Everything else is undefined. */
export function strokeOf(message: ArrayLike<number>): KeyStroke | "all up" | undefined {
  const [status = 0, first = 0, second = 0] = [message[0], message[1], message[2]];
  switch (status & 0xf0) {
    case 0x80:
      return { key: first, velocity: 0 };
    case 0x90:
      return { key: first, velocity: second / 127 };
    case 0xb0:
      return first === 120 || first === 123 ? "all up" : undefined;
    default:
      return status === 0xff ? "all up" : undefined;
  }
}
