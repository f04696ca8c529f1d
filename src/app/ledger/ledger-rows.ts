/** Figures as the ledger shows them: names, numbers and intervals in words, by group. */
import type { Figure } from "../../catalogue/figure.ts";
import { groups, quantities } from "../../catalogue/quantities.ts";
import type { Origin, Provenances } from "../../description/provenance.ts";
import { formatParts, formatRange } from "../../units/index.ts";
import type { Solution } from "../../workbench/contract.ts";
import type { Doubts } from "../../workbench/doubts.ts";
import { decisiveOrigin } from "./decisive-origin.ts";

export interface LedgerRow {
  readonly id: string;
  readonly name: string;
  readonly number: string;
  readonly unit: string;
  /** The 90 % interval in words, where it was computed. */
  readonly interval: string | undefined;
  readonly origin: Origin | undefined;
  readonly note: string | undefined;
}

export interface LedgerInputs {
  readonly solution: Solution;
  readonly provenances: Provenances;
  /** Intervals, as soon as they are known. */
  readonly doubts: Doubts | undefined;
  /** Those of an earlier text where the new ones are still being worked out: marks change seldom. */
  readonly lastDoubts: Doubts | undefined;
}

export interface LedgerGroup {
  readonly name: string;
  readonly rows: readonly LedgerRow[];
}

/** Number and unit of a figure as the catalogue wants them shown. */
export function shownParts({ id, value, unit }: Pick<Figure, "id" | "value" | "unit">) {
  return formatParts(value, unit, { digits: quantities.get(id)?.display.digits ?? 4 });
}

function rowOf(figure: Figure, { provenances, doubts, lastDoubts }: LedgerInputs): LedgerRow {
  const { id, unit, note } = figure;
  const { low, high } = doubts?.get(id) ?? figure;
  const doubt = lastDoubts?.get(id);
  const parts = shownParts(figure);
  return {
    id,
    name: quantities.get(id)?.name ?? id,
    number: parts.number,
    unit: parts.unit,
    interval: low === undefined || high === undefined ? undefined : formatRange({ low, high }, unit),
    origin: doubt && decisiveOrigin(doubt, provenances)?.origin,
    note,
  };
}

/** All figures in the groups of the catalogue; those that it does not know come last. */
export function ledgerGroups(inputs: LedgerInputs): LedgerGroup[] {
  const byGroup = new Map<string, LedgerRow[]>(groups.map((name) => [name, []]));
  for (const figure of inputs.solution.figures.values()) {
    const group = quantities.get(figure.id)?.group ?? "other";
    byGroup.set(group, [...(byGroup.get(group) ?? []), rowOf(figure, inputs)]);
  }
  return [...byGroup].filter(([, rows]) => rows.length > 0).map(([name, rows]) => ({ name, rows }));
}
