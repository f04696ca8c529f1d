/** Which number of the file decides how sure a figure is. */
import type { Origin, Provenances } from "../../description/provenance.ts";
import type { Doubt } from "../../workbench/doubts.ts";

const firmness: readonly Origin[] = ["guessed", "drawn", "datasheet", "measured"];
/** A number that makes less of the variance than this decides nothing. */
const matters = 0.03;

export interface Decisive {
  readonly origin: Origin;
  /** Path of the number in the file. */
  readonly path: string;
}

/** The least firm origin among the numbers that make a real part of a figure's doubt; that of the greatest part where none does. */
export function decisiveOrigin({ contributions }: Doubt, provenances: Provenances): Decisive | undefined {
  const known = contributions.flatMap(({ path, share }) => {
    const origin = provenances.get(path)?.origin;
    return origin === undefined ? [] : [{ path, share, origin }];
  });
  const real = known.filter(({ share }) => share >= matters);
  return (real.length > 0 ? real : known.slice(0, 1)).reduce<Decisive | undefined>(
    (least, one) =>
      least === undefined || firmness.indexOf(one.origin) < firmness.indexOf(least.origin) ? one : least,
    undefined,
  );
}
