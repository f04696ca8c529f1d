/** A match in words: its one sentence, how sure a figure is, how likely a cause. */
import { quantities } from "../catalogue/quantities.ts";
import { formatQuantity } from "../units/format.ts";
import type { Explanation, Match, Rivals } from "../workbench/match-contract.ts";

/** Support from which a cause is called likely, and from which it is worth a look. */
const supported = { likely: 6, possible: 1 };
const shownCauses = 5;

export { isSeen } from "../workbench/match-seen.ts";

/** One sentence: does it agree, and if not, what is most likely. */
export function matchHeadline({ explanations, taken, observations }: Match): string {
  const [first] = explanations;
  if (observations === 0) return "Nothing in these records can be compared with the drawing.";
  if (taken !== undefined && first) return `The records do not agree with the drawing. Most likely: ${first.says}.`;
  if (first && first.support >= supported.likely)
    return `The records do not agree with the drawing, and more than one cause would explain it. First to look at: ${first.says}.`;
  return "The records agree with the drawing within its tolerances and what the model may be off by.";
}

/** A cause that betters χ² by less explains nothing: it is only not excluded. */
const leastGain = 0.5;

/** The causes that are worth a look, most supported first. */
export const worthLooking = (explanations: readonly Explanation[]): readonly Explanation[] =>
  explanations
    .filter(
      ({ support, chiSquare, chiSquareDrawn }) =>
        support >= supported.possible && chiSquareDrawn - chiSquare >= leastGain,
    )
    .slice(0, shownCauses);

/** What the records do not part, and the one further measurement that would. */
export function rivalsText({ says: [first, other], measure, figure }: Rivals): string {
  const alike = `Not told apart by these records: (a) ${first}; (b) ${other}.`;
  if (measure === undefined)
    return `${alike} No single further measurement tells them by two of its standard deviations: look at both.`;
  const quantity = figure && quantities.get(figure.id);
  const [by, byOther] = (figure?.values ?? []).map((value) =>
    formatQuantity(value, quantity?.unit ?? "1", { digits: quantity?.display.digits ?? 4 }),
  );
  return `${alike} What would tell: ${measure}${by === undefined ? "" : `; ${by} if (a), ${byOther} if (b)`}.`;
}

/** `likely, 12.3` */
export const supportText = ({ support }: Pick<Explanation, "support">): string =>
  `${support >= supported.likely ? "likely" : "possible"}, ${support.toFixed(1)}`;

/** Half of an interval over its value: `±0.52 %`; empty for a value of zero. */
export function shareText({ value, low, high }: { value: number; low: number; high: number }): string {
  const part = (100 * (high - low)) / 2 / Math.abs(value);
  return Number.isFinite(part) ? `±${formatQuantity(part, "1", { digits: 2, trim: true })} %` : "";
}
