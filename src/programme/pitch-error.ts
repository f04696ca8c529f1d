/** How true the notes of a plan sound. */
import type { Song } from "../description/song.ts";
import type { Plan } from "./plan.ts";

export interface NotePitch {
  /** Pulses sent for it, merged ones counted. */
  readonly pulses: Int32Array;
  /** Pulses that it asked for. */
  readonly wanted: Int32Array;
  /** [cent] of its mean pitch against what it asked for; NaN with fewer than two pulses, and for noise. */
  readonly cents: Float64Array;
}

/**
 * Mean pitch of every note against equal temperament: the slope of the sent starts over the wanted ones by least squares, which is the ratio of the
 * periods, and the octaves by which a note was lowered.
 *
 * @source  least squares; iso-16
 */
export function pitchOfNotes(
  song: Song,
  { schedule, asked, into, lowered }: Pick<Plan, "schedule" | "asked" | "into" | "lowered">,
): NotePitch {
  const { start, wantedStart, onTime } = schedule;
  const count = song.notes.length;
  const pulses = new Int32Array(count);
  const wanted = new Int32Array(count);
  const sums = [0, 1, 2, 3].map(() => new Float64Array(count));
  const [x, y, xx, xy] = sums as [Float64Array, Float64Array, Float64Array, Float64Array];
  for (let at = 0; at < start.length; at++) {
    const note = asked[at]!;
    wanted[note]!++;
    const carrier = into[at]! < 0 ? at : into[at]!;
    if (onTime[carrier] === 0) continue;
    pulses[note]!++;
    // From the note's start, or the sums of a long song lose their digits.
    const from = song.notes[note]!.start;
    const wish = wantedStart[at]! - from;
    const moved = start[carrier]! - wantedStart[at]!;
    x[note]! += wish;
    y[note]! += moved;
    xx[note]! += wish * wish;
    xy[note]! += wish * moved;
  }
  const cents = Float64Array.from({ length: count }, (_, note) => {
    const n = pulses[note]!;
    if (n < 2 || song.notes[note]!.sound === "noise") return Number.NaN;
    const spread = xx[note]! - (x[note]! * x[note]!) / n;
    const slope = spread > 0 ? (xy[note]! - (x[note]! * y[note]!) / n) / spread : 0;
    return -1200 * Math.log2(1 + slope) - 1200 * lowered[note]!;
  });
  return { pulses, wanted, cents };
}
