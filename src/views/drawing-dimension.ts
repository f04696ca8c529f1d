/** One way to make a dimension, so that every one is complete. */
import type { Provenances } from "../description/provenance.ts";
import type { Dimension } from "./drawing.ts";
import { dimensionText } from "./drawing-text.ts";

type Draft = Pick<Dimension, "path" | "says" | "value" | "from" | "side"> & Partial<Dimension>;

const steps = { length: 1e-3, angle: Math.PI / 180, count: 1, ratio: 0.1 };

/** Arrow-key step of a length: a hundredth of it, rounded to 1, 2 or 5 of a decade, at most 10 mm. */
function lengthStep(value: number): number {
  const wanted = Math.min(Math.max(Math.abs(value) / 100, 1e-5), 1e-2);
  const decade = 10 ** Math.floor(Math.log10(wanted));
  const digit = [5, 2, 1].find((d) => d * decade <= wanted * 1.0001) ?? 1;
  return digit * decade;
}

/** Fills what a draft leaves open: a span in the coil, nearest row, a length, its text and its step. */
export function dimensionOf(draft: Draft, provenances?: Provenances): Dimension {
  const quantity = draft.quantity ?? "length";
  return {
    kind: "span",
    to: draft.from,
    rank: 0,
    group: "coil",
    quantity,
    text: dimensionText(draft.path, draft.value, quantity, provenances),
    prefix: "",
    suffix: "",
    step: quantity === "length" ? lengthStep(draft.value) : steps[quantity],
    least: 0,
    ...draft,
  };
}
