/** A planned programme as sound for the ears alone: in pieces while it plays, and one key held down. */

import type { Coil } from "../description/coil.ts";
import type { Song } from "../description/song.ts";
import { frequencyOf } from "../programme/index.ts";
import { previewOf } from "../sound/index.ts";
import type { Hertz, Ratio, Second } from "../units/si.ts";
import type { Solution } from "./contract.ts";
import { planProgramme } from "./programme.ts";
import type { ProgrammeStudy } from "./programme-contract.ts";

export interface PreviewPiece {
  readonly rate: Hertz;
  /** Place of the first sample in the programme [s]; the click of a pulse that starts there is whole. */
  readonly from: Second;
  /** Mono. They ring on past the end of the stretch, so that the next piece is to be added to them. */
  readonly samples: Float32Array<ArrayBuffer>;
}

/** Samples of all pieces together; an empty array where there are none. */
function joined(pieces: Iterable<Float32Array>, frames: number): Float32Array<ArrayBuffer> {
  const all = new Float32Array(frames);
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/**
 * The pulses that start in a stretch [from, to), as loud against the rest of the programme as in the whole.
 *
 * @param volume  0 to 1: peak of the longest pulse of the programme
 * @throws OutOfDomain  as `previewOf`
 */
export function previewPiece(
  { plan: { schedule } }: Pick<ProgrammeStudy, "plan">,
  {
    from,
    to,
    rate,
    volume,
  }: { readonly from: Second; readonly to: Second; readonly rate: Hertz; readonly volume: Ratio },
): PreviewPiece {
  const { start, onTime } = schedule;
  const inside: number[] = [];
  let longest = 0;
  let here = 0;
  for (let n = 0; n < start.length; n++) {
    const lasts = onTime[n] ?? 0;
    longest = Math.max(longest, lasts);
    const begins = start[n] ?? 0;
    if (lasts === 0 || begins < from || begins >= to) continue;
    inside.push(n);
    here = Math.max(here, lasts);
  }
  const train = {
    start: Float64Array.from(inside, (n) => (start[n] ?? 0) - from),
    onTime: Float64Array.from(inside, (n) => onTime[n] ?? 0),
    duration: to - from,
  };
  // A piece alone would be as loud as its own longest pulse.
  const { frames, chunks, delay } = previewOf(train, { rate, volume: longest > 0 ? (volume * here) / longest : 0 });
  return { rate, from: from - delay, samples: joined(chunks(), frames) };
}

/** How long a key is planned for, and about how long the piece of it is that is played round and round. */
const held: Second = 1;
const round: Second = 0.5;

/**
 * One key, held at full strength and planned by itself inside the coil's limits, as samples that may be played round and round.
 *
 * @param pitch  [semitones], 69 is 440 Hz
 * @returns `lowered` in octaves where rate or gap do not let the tone through as it is; no samples where nothing may be sent
 * @throws OutOfDomain  as `planProgramme` and `previewOf`
 */
export function previewKey(
  { coil, solution, pitch }: { readonly coil: Coil; readonly solution: Solution; readonly pitch: number },
  { rate, volume }: { readonly rate: Hertz; readonly volume: Ratio },
): { readonly samples: Float32Array<ArrayBuffer>; readonly lowered: number; readonly onTime: Second } {
  const start: Second = 0;
  const end: Second = held;
  const song: Song = {
    voices: [{ name: "key" }],
    notes: [{ voice: 0, start, end, pitch, velocity: 1, level: 1, sound: "tone", bends: [], swells: [] }],
    duration: end,
  };
  const { plan } = planProgramme(coil, solution, song);
  const sent = plan.course.onTime;
  // In the middle of the second the windows of the duty are full.
  const onTime = sent[Math.floor(sent.length / 2)] ?? 0;
  const lowered = plan.lowered[0] ?? 0;
  if (onTime === 0) return { samples: new Float32Array(0), lowered, onTime };
  const frequency = frequencyOf(pitch) / 2 ** lowered;
  // As many whole periods as come nearest to whole samples; the rest is less than a cent.
  const periods = Math.max(1, Math.round(round * frequency));
  const length = Math.round((periods / frequency) * rate);
  const starts = Array.from({ length: 3 * periods }, (_, n) => ((n / periods) * length) / rate);
  const { chunks, frames } = previewOf(
    {
      start: Float64Array.from(starts),
      onTime: new Float64Array(starts.length).fill(onTime),
      duration: (3 * length) / rate,
    },
    { rate, volume },
  );
  return { samples: joined(chunks(), frames).slice(length, 2 * length), lowered, onTime };
}
