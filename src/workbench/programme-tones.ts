/** Songs of one tone, for measurement: steady, or gliding from one frequency to another. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Song } from "../description/song.ts";
import { pitchOf } from "../programme/index.ts";
import type { Hertz, Second } from "../units/si.ts";

/** Steps of a glide: a hundredth of a second each. */
const step: Second = 0.01;
const start: Second = 0;

/** One tone at full strength. @throws OutOfDomain frequency or length is not positive */
export function toneSong({ frequency, lasts }: { readonly frequency: Hertz; readonly lasts: Second }): Song {
  return glideSong({ from: frequency, to: frequency, lasts });
}

/**
 * One tone at full strength that glides by equal intervals in equal times.
 * @throws OutOfDomain  a frequency or the length is not positive
 */
export function glideSong({
  from,
  to,
  lasts,
}: {
  readonly from: Hertz;
  readonly to: Hertz;
  readonly lasts: Second;
}): Song {
  if (!(from > 0 && to > 0 && lasts > 0 && Number.isFinite(from + to + lasts)))
    throw new OutOfDomain(
      "glideSong",
      `needs positive frequencies and length, got ${from} Hz, ${to} Hz and ${lasts} s`,
    );
  const [low, high] = [pitchOf(from), pitchOf(to)];
  const steps = from === to ? 0 : Math.floor(lasts / step);
  return {
    title: from === to ? "a tone" : "a sweep",
    voices: [{ name: "tone" }],
    notes: [
      {
        voice: 0,
        start,
        end: lasts,
        pitch: low,
        velocity: 1,
        level: 1,
        sound: "tone",
        bends: Array.from({ length: steps }, (_, n) => ({
          at: (n + 1) * step,
          to: low + ((high - low) * (n + 1) * step) / lasts,
        })),
        swells: [],
      },
    ],
    duration: lasts,
  };
}
