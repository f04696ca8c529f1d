/** What a match and an adoption leave in the log of the bench. */
import type { Edit } from "../catalogue/finding.ts";
import type { LoggedAdoption, LoggedMatch } from "../description/bench-log.ts";
import { captureFigures } from "./match-capture.ts";
import type { Match } from "./match-contract.ts";
import { type MatchRecord, nameOf } from "./match-observe.ts";
import { isSeen } from "./match-seen.ts";

/**
 * @param at    moment, as `2026-11-25T16:20:00Z`
 * @param says  the match in one sentence
 */
export function matchEntry({
  match,
  records,
  at,
  says,
}: {
  match: Match;
  records: readonly MatchRecord[];
  at: string;
  says: string;
}): LoggedMatch {
  return {
    kind: "match",
    at,
    records: records.map((record, n) => {
      const state = match.states[n]?.state;
      const bus = "record" in record ? record.busVoltage : undefined;
      return {
        name: nameOf(record),
        ...(state === undefined ? {} : { state }),
        ...(bus === undefined ? {} : { bus }),
        figures:
          "record" in record
            ? captureFigures(record.reading).map(({ id, value, low, high, unit }) => ({ id, value, low, high, unit }))
            : [],
      };
    }),
    says,
    fitted: match.matched
      .filter(isSeen)
      .map(({ id, value, low, high, unit, drawn, shift }) => ({ id, value, low, high, unit, drawn, shift })),
    chiSquare: match.chiSquare,
    observations: match.observations,
  };
}

export function adoptionEntry({
  kind,
  edits,
  at,
}: {
  kind: LoggedAdoption["kind"];
  edits: readonly Edit[];
  at: string;
}): LoggedAdoption {
  return { kind, at, edits: edits.map(({ path, value = "" }) => ({ path, value })) };
}
