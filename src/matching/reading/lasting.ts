/** Which lines of a ring-down are the coil's. */
import type { Pole, Poles } from "./poles.ts";

/** A tone that dies within this many cycles is the drive's end, no line of the coil. */
const leastQ = 30;
/** The two poles share their losses: a tone that dies so much sooner than the other is the primary giving back its energy. */
const leastQShare = 0.3;

/** Lower first. */
export function lastingPoles(poles: Poles | undefined): readonly Pole[] {
  const all = poles?.poles ?? [];
  const longest = Math.max(0, ...all.map(({ q }) => q.value));
  return all
    .filter(({ q }) => q.value >= Math.max(leastQ, leastQShare * longest))
    .sort((a, b) => a.frequency.value - b.frequency.value);
}
