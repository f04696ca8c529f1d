/** The line for bystanders: what asks for how much room, and which asks for the most. */
import type { SourceKey } from "../catalogue/sources.ts";
import type { Metre } from "../units/si.ts";

/** Factor from reach to strike distance. Source: stand-off-practice. */
export const strikeFactor = 1.5;
/** What is added to the reach at least. Source: stand-off-practice. */
export const reachMargin: Metre = 1.5;
/** Least line for any coil. Source: half-metre-practice. */
export const practiceLine: Metre = 3;

/** Reach of the arc from where it breaks out: at the setting, and the most that the limits let through [m]. */
export interface Reach {
  readonly low: Metre;
  readonly middle: Metre;
  readonly high: Metre;
}

/** Strike distance [m]: one and a half times the upper bound of reach. Common practice, no source. */
export const strikeDistance = ({ high }: Reach): Metre => strikeFactor * high;

/** Distance for bystanders that the reach asks for [m]: the greater of twice its upper bound and that and 1.5 m. Common practice, no source. */
export const reachLine = ({ high }: Reach): Metre => Math.max(2 * high, high + reachMargin);

export interface LineCandidate {
  readonly id: "reach" | "electric" | "magnetic" | "noise" | "practice";
  /** One sentence: what asks for it. */
  readonly says: string;
  /** From the coil's axis [m]; undefined where it cannot be told. */
  readonly distance: Metre | undefined;
  /** The same with the lower end of what it stands on [m]. */
  readonly low: Metre | undefined;
  readonly source: SourceKey;
}

/** The candidate that asks for the most; undefined where none is known. */
export function decidingCandidate(candidates: readonly LineCandidate[]): LineCandidate | undefined {
  return candidates
    .filter(({ distance }) => distance !== undefined)
    .reduce<LineCandidate | undefined>(
      (most, one) => (most === undefined || one.distance! > most.distance! ? one : most),
      undefined,
    );
}

/** The line if everything that it stands on were at its lower end [m]; undefined where no candidate is known. */
export function lowestLine(candidates: readonly LineCandidate[]): Metre | undefined {
  const known = candidates.flatMap(({ low }) => low ?? []);
  return known.length === 0 ? undefined : Math.max(...known);
}
