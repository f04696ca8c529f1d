/** Which fitted figures were measured. */
import type { MatchedFigure } from "./match-contract.ts";

/** Part of the drawing's doubt that is left from which a figure was not measured. */
const notSeen = 0.97;
/** Standard deviations of what was drawn by which a cause moves a figure for it to count as measured all the same. */
const moved = 2;

/** Whether the records say anything of a figure: it is surer than drawn, or a cause has moved it out of what was drawn. */
export const isSeen = ({ left, shift }: Pick<MatchedFigure, "left" | "shift">): boolean =>
  left < notSeen || Math.abs(shift) >= moved;
