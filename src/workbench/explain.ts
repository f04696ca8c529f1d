/** Why a figure is what it is: definition, formula in words, inputs, source, sensitivities, handbook checks, and what to measure. */
import type { CrossCheck, Figure } from "../catalogue/figure.ts";
import { quantities } from "../catalogue/quantities.ts";
import { type SourceKey, type Standing, sources, standingWords } from "../catalogue/sources.ts";
import type { Origin } from "../description/provenance.ts";
import { type Dimension, dimensions } from "../units/dimension.ts";
import { formatQuantity } from "../units/format.ts";
import { numberAt } from "./coil-path.ts";
import type { CoilFile, Solution } from "./contract.ts";
import { type Doubt, intervals } from "./doubts.ts";
import { movesByChord, pathsUnder, type Sensitivity, sensitivities } from "./sensitivities.ts";
import type { Solve } from "./solve.ts";

/** Something that a figure was computed from. */
export type Input =
  | {
      readonly kind: "figure";
      readonly id: string;
      readonly name: string;
      readonly value: number;
      readonly unit: string;
      readonly text: string;
    }
  | {
      readonly kind: "key";
      readonly path: string;
      /** As it stands in the file, or the default that stands in. */
      readonly text: string;
      readonly origin: Origin;
      /** Whether somebody wrote it. */
      readonly written: boolean;
    };

export interface ExplainedSource {
  readonly key: string;
  readonly author: string;
  readonly title: string;
  readonly year?: number;
  readonly where?: string;
  readonly says: string;
  readonly standing: Standing;
  /** The mark in words. */
  readonly mark: string;
}

export interface ExplainedCheck extends CrossCheck {
  /** Handbook value over the figure, less one. */
  readonly disagreement: number;
  readonly text: string;
  readonly mark: string;
}

export interface Explanation {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly value: number;
  readonly text: string;
  readonly definition: string;
  readonly formula: string;
  readonly inputs: readonly Input[];
  readonly source: ExplainedSource;
  readonly crossChecks: readonly ExplainedCheck[];
  readonly note?: string;
  /**
   * Greatest first: per cent of the figure for one per cent of the number. Empty where nothing was solved again. `byChord` where each is taken
   * over the number's whole tolerance, because the figure jumps where a burst gains or loses a half-cycle.
   */
  readonly byChord: boolean;
  readonly sensitivities: readonly { readonly path: string; readonly percentPerPercent: number }[];
  readonly doubt?: Doubt;
  /** The number whose measurement would shrink the interval most, and the interval that would be left if it were exact. */
  readonly measure?: { readonly path: string; readonly share: number; readonly low: number; readonly high: number };
}

/**
 * Explains one figure of a solution as plain data.
 *
 * @param solve  with it, the numbers that the figure stands on are moved and the coil solved again, two solves a number
 * @param most   at most so many numbers are moved
 * @returns undefined where the solution has no such figure
 */
export function explain({
  file,
  solution,
  id,
  solve,
  most,
  onProgress,
}: {
  file: CoilFile;
  solution: Solution;
  id: string;
  solve?: Solve;
  most?: number;
  onProgress?: (done: number, of: number) => void;
}): Explanation | undefined {
  const found = solution.figures.get(id);
  const quantity = quantities.get(id);
  if (found === undefined || quantity === undefined) return undefined;
  const { value, unit, note } = found;
  return {
    id,
    name: quantity.name,
    unit,
    value,
    text: figureText(found),
    definition: quantity.definition,
    formula: quantity.formula,
    inputs: found.from.flatMap((from) => inputsOf(from, { file, solution })),
    source: sourceOf(found.source),
    crossChecks: found.crossChecks.map((check) => ({
      ...check,
      disagreement: check.value / value - 1,
      text: formatQuantity(check.value, unit, { digits: quantity.display.digits }),
      mark: sourceOf(check.source).mark,
    })),
    ...(note === undefined ? {} : { note }),
    byChord: movesByChord(id),
    ...(solve ? solvedAgain({ file, solution, found, solve, most, onProgress }) : { sensitivities: [] }),
  };
}

function solvedAgain({
  found,
  most,
  onProgress,
  ...rest
}: {
  file: CoilFile;
  solution: Solution;
  found: Figure;
  solve: Solve;
  most: number | undefined;
  onProgress: ((done: number, of: number) => void) | undefined;
}): Pick<Explanation, "sensitivities" | "doubt" | "measure"> {
  const { id, value } = found;
  const options = { ...rest, figures: [id], ...(most === undefined ? {} : { most }) };
  const moved = sensitivities({ ...options, ...(onProgress === undefined ? {} : { onProgress }) });
  const doubt = intervals({ ...options, moved }).get(id);
  const worst = doubt?.contributions[0];
  return {
    sensitivities: elasticities(moved, { id, value }),
    ...(doubt ? { doubt } : {}),
    ...(doubt && worst ? { measure: withoutOne(doubt, worst) } : {}),
  };
}

function elasticities(moved: readonly Sensitivity[], { id, value }: { id: string; value: number }) {
  if (value === 0) return [];
  return moved
    .flatMap(({ path, value: at, slopes }) => {
      const slope = slopes.get(id);
      return slope === undefined ? [] : [{ path, percentPerPercent: (slope * at) / value }];
    })
    .sort((a, b) => Math.abs(b.percentPerPercent) - Math.abs(a.percentPerPercent));
}

/** The interval left if one number were known exactly. */
function withoutOne(doubt: Doubt, { path, halfWidth, share }: { path: string; halfWidth: number; share: number }) {
  const left = (width: number) => Math.sqrt(Math.max(0, width ** 2 - halfWidth ** 2));
  return {
    path,
    share,
    low: doubt.value - left(doubt.value - doubt.low),
    high: doubt.value + left(doubt.high - doubt.value),
  };
}

function inputsOf(from: string, { file, solution }: { file: CoilFile; solution: Solution }): readonly Input[] {
  const found = solution.figures.get(from);
  if (found) {
    const { id, value, unit } = found;
    return [{ kind: "figure", id, name: quantities.get(id)?.name ?? id, value, unit, text: figureText(found) }];
  }
  return pathsUnder(file.provenances, from).flatMap((path): readonly Input[] => {
    const provenance = file.provenances.get(path);
    if (!provenance) return [];
    const { text, origin, dimension } = provenance;
    const value = numberAt(solution.coil, path);
    const shown = text ?? (value === undefined ? undefined : defaultText(value, dimension));
    return shown === undefined ? [] : [{ kind: "key", path, text: shown, origin, written: text !== undefined }];
  });
}

const defaultText = (value: number, dimension: string): string =>
  formatQuantity(value, dimension in dimensions ? dimensions[dimension as Dimension].si : "1", { trim: true });

function figureText({ id, value, unit }: Figure): string {
  return formatQuantity(value, unit, { digits: quantities.get(id)?.display.digits ?? 4 });
}

function sourceOf(key: string): ExplainedSource {
  const { author, title, says, standing, year, where } =
    sources.get(key) ?? sources.get("common-practice" satisfies SourceKey)!;
  return {
    key,
    author,
    title,
    says,
    standing,
    mark: standingWords[standing],
    ...(year === undefined ? {} : { year }),
    ...(where === undefined ? {} : { where }),
  };
}
