/** Which fitted figures were measured, and what stands against taking them over. */
import type { Finding } from "../catalogue/finding.ts";
import type { MatchedFigure } from "./match-contract.ts";
import type { MatchRecord } from "./match-observe.ts";

/** Part of the drawing's doubt that is left from which a figure was not measured. */
const notSeen = 0.97;
/** Standard deviations of what was drawn by which a cause moves a figure for it to count as measured all the same. */
const moved = 2;

/** Whether the records say anything of a figure: it is surer than drawn, or a cause has moved it out of what was drawn. */
export const isSeen = ({ left, shift }: Pick<MatchedFigure, "left" | "shift">): boolean =>
  left < notSeen || Math.abs(shift) >= moved;

/** Whether a record was made up for practice: no part of a coil's history. */
export const isMadeUp = (each: MatchRecord): boolean => "record" in each && each.record.madeUp === true;

/** Why nothing of a fit may be taken over into the file; undefined where nothing stands against it. */
export const againstAdopting = (findings: readonly Finding[]): Finding | undefined =>
  findings.find(({ rule }) => rule === "match-poor" || rule === "match-made-up");
