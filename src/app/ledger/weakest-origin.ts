/** A figure is as sure as the least sure number under it. */
import type { Figures } from "../../catalogue/figure.ts";
import type { Origin, Provenances } from "../../description/provenance.ts";

const firmness: readonly Origin[] = ["guessed", "drawn", "datasheet", "measured"];

export interface Weakest {
  readonly origin: Origin;
  /** A path of the file with that origin. */
  readonly path: string;
}

/** The least firm origin among all numbers of the file that a figure was computed from, by way of other figures too. */
export function weakestOrigin(id: string, figures: Figures, provenances: Provenances): Weakest | undefined {
  const seen = new Set<string>();
  let weakest: Weakest | undefined;
  const visit = (from: string): void => {
    if (seen.has(from)) return;
    seen.add(from);
    const figure = figures.get(from);
    if (figure !== undefined) {
      figure.from.forEach(visit);
      return;
    }
    for (const [path, { origin, dimension }] of provenances) {
      if (path !== from && !path.startsWith(`${from}.`)) continue;
      if (dimension === "count" || dimension === "choice" || dimension === "flag") continue;
      if (weakest === undefined || firmness.indexOf(origin) < firmness.indexOf(weakest.origin))
        weakest = { origin, path };
    }
  };
  visit(id);
  return weakest;
}
