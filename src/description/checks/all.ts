import type { Coil } from "../coil.ts";
import type { Check, Checked } from "./check.ts";
import { primaryCanBeWound } from "./primary.ts";
import { shapesExist } from "./shapes.ts";
import { partsHaveRoom } from "./space.ts";
import { burstsAreApart } from "./timing.ts";
import { visitorsStandClear } from "./visitors.ts";
import { windingFits } from "./winding.ts";

/** What each part must be in itself, before parts are compared with each other. */
const alone: readonly Check[] = [windingFits, shapesExist, primaryCanBeWound, burstsAreApart];
const together: readonly Check[] = [partsHaveRoom, visitorsStandClear];

/** Everything about a coil that cannot be, or cannot be so. Parts that are no shape are not compared with others. */
export function checkCoil(coil: Coil): readonly Checked[] {
  const first = alone.flatMap((check) => check(coil));
  return first.some(({ makesNoCoil }) => makesNoCoil) ? first : [...first, ...together.flatMap((check) => check(coil))];
}
