/** What a computed burst says at its worst: at the setting, or at the interrupter's limits where they allow more. */
import type { Figure } from "../catalogue/figure.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import type { Context } from "./rule.ts";
import { seconds } from "./words.ts";

export interface Greatest {
  /** At the setting. */
  readonly now: Figure;
  /** The greater of both. */
  readonly most: Figure;
  /** The burst that `most` is of. */
  readonly study: BurstStudy;
  /** Which burst that is, to go behind what it does: `in a burst of 110 µs`. */
  readonly basis: string;
  /** The figure, and what the burst was cut by. */
  readonly evidence: readonly string[];
}

/** Part by which the limits must raise a figure before they are named instead of the setting. */
const worthNaming = 0.02;

/**
 * A figure of the burst at its greatest.
 * @param by  which end of its interval decides; its value where absent
 * @returns undefined where no burst was studied, or it lacks the figure
 */
export function greatest(context: Context, id: string, by: "value" | "high" = "value"): Greatest | undefined {
  const { study, atLimits } = context;
  const now = study?.figures.get(id);
  if (study === undefined || now === undefined) return undefined;
  const limit = atLimits?.figures.get(id);
  const size = (figure: Figure) => (by === "high" ? (figure.high ?? figure.value) : figure.value);
  const higher = limit !== undefined && size(limit) > size(now) + worthNaming * Math.abs(size(now));
  const [most, of] = higher && atLimits ? [limit, atLimits] : [now, study];
  return {
    now,
    most,
    study: of,
    basis: burstWords(of, higher),
    evidence: [id, ...(of.tripTime === undefined ? [] : ["feedback.overcurrent"])],
  };
}

/** Which burst is meant: `in a burst of 110 µs`. */
export function burstWords({ setting: { onTime }, tripTime }: BurstStudy, atLimits = false): string {
  const length = seconds(onTime);
  if (atLimits) return `in a burst of ${length}, which the interrupter's limits let through`;
  return `in a burst of ${length}${tripTime === undefined ? "" : " that the overcurrent setting cuts short"}`;
}
