/** How sure every figure is, and which number of the file makes it unsure. */
import type { Figure } from "../catalogue/figure.ts";
import { modelUncertainty } from "./model-uncertainty.ts";
import { type Sensitivity, type SensitivityOptions, sensitivities } from "./sensitivities.ts";

/** From a half-width that holds 95 % (two standard deviations) to one that holds 90 %. */
const ninety = 1.645 / 2;

/** What one number of the file adds to a figure's doubt. */
export interface Contribution {
  /** Path in the coil file. */
  readonly path: string;
  /** Half-width [unit of the figure] that it alone would give, 90 %. */
  readonly halfWidth: number;
  /** Its part of the variance, 0 to 1. */
  readonly share: number;
}

export interface Doubt {
  readonly id: string;
  readonly value: number;
  readonly unit: string;
  /** Ends of the 90 % interval. */
  readonly low: number;
  readonly high: number;
  /** Half-width [unit of the figure] of the model's own uncertainty, 90 %, the greater side. */
  readonly model: number;
  /** Greatest first. */
  readonly contributions: readonly Contribution[];
}

export type Doubts = ReadonlyMap<string, Doubt>;

/**
 * First-order 90 % intervals of all figures, or of those that are named, from the tolerances of the file and the model's own uncertainty.
 *
 * Every tolerance is the half-width that holds 95 %, taken as two standard deviations of independent normal errors.
 *
 * @param moved  the sensitivities, where they are known already
 * @validity first order; a wide tolerance on something strongly curved gets an interval too symmetric. Systematic errors that the file does not
 *           know of are not in it
 * @source first-order-propagation, model-uncertainty
 */
export function intervals(options: SensitivityOptions & { readonly moved?: readonly Sensitivity[] }): Doubts {
  const moved = options.moved ?? sensitivities(options);
  const { figures, coil } = options.solution;
  const model = modelUncertainty(coil, figures);
  const wanted = options.figures;
  return new Map(
    [...figures.values()]
      .filter(({ id }) => wanted === undefined || wanted.includes(id))
      .map((figure) => [figure.id, doubtOf(figure, { moved, own: model.get(figure.id) ?? 0, options })]),
  );
}

function doubtOf(
  figure: Figure,
  { moved, own, options }: { moved: readonly Sensitivity[]; own: number; options: SensitivityOptions },
): Doubt {
  const { id, value, unit } = figure;
  const parts = moved.flatMap(({ path, slopes }) => {
    const slope = slopes.get(id) ?? 0;
    const tolerance = options.file.provenances.get(path)?.tolerance ?? 0;
    const halfWidth = ninety * Math.abs(slope * tolerance);
    return halfWidth > 0 ? [{ path, halfWidth }] : [];
  });
  const fromFile = Math.hypot(...parts.map(({ halfWidth }) => halfWidth));
  // A law that brings its own interval, such as inception, knows its two sides better than one half-width does.
  const modelDown = Math.max(ninety * own * Math.abs(value), value - (figure.low ?? value));
  const modelUp = Math.max(ninety * own * Math.abs(value), (figure.high ?? value) - value);
  const variance = fromFile ** 2 + Math.max(modelDown, modelUp) ** 2;
  return {
    id,
    value,
    unit,
    low: value - Math.hypot(fromFile, modelDown),
    high: value + Math.hypot(fromFile, modelUp),
    model: Math.max(modelDown, modelUp),
    contributions: parts
      .map((part) => ({ ...part, share: variance > 0 ? part.halfWidth ** 2 / variance : 0 }))
      .sort((a, b) => b.share - a.share),
  };
}
