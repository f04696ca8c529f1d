/** Where each number of a coil came from, kept beside the plain coil and not in it. */
import type { Place } from "../catalogue/finding.ts";
import type { Origin } from "../units/quantity.ts";

export type { Origin } from "../units/quantity.ts";

export interface Provenance {
  /** As written in the file; undefined where a documented default filled a missing key. */
  readonly text: string | undefined;
  readonly origin: Origin;
  /** Absolute, SI, the half-width that holds 95 % (2 sigma). 0 for counts and choices. */
  readonly tolerance: number;
  /** Whether the tolerance was written or came from the table of defaults by kind and origin. */
  readonly toleranceFrom: "written" | "default";
  /** Dimension name of the key, e.g. `length`, `capacitance`, `count`. */
  readonly dimension: string;
  readonly place: Place;
}

/** By dotted path, e.g. `secondary.former.outerDiameter`, `topload.0.toroid.height`. */
export type Provenances = ReadonlyMap<string, Provenance>;
