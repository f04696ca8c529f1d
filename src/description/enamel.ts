/** Overall diameter of enamelled wire where the file gives only the copper. */
import type { Metre } from "../units/si.ts";

/**
 * Overall diameter of grade 1 enamelled round wire: bare + 0.061 mm · √(bare/1 mm).
 *
 * A fit, from memory, to the greatest overall diameters that wire tables give for that grade (0.1 % of 0.349 mm at 0.315 mm bare, the one row
 * that could be compared). A caliper or the maker's sheet replaces it: the reader marks what it fills in as guessed.
 *
 * @param bare  [m], > 0
 * @returns     [m], greater than `bare`
 */
export function overallOfEnamelledWire(bare: Metre): Metre {
  return bare + 0.061e-3 * Math.sqrt(bare / 1e-3);
}
