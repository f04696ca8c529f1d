/** What a rule is: one idea that a coil can be judged by, from the coil and its figures to findings. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Edit, Finding, Remedy, Severity } from "../catalogue/finding.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import type { Coil } from "../description/coil.ts";
import type { Origin, Provenance } from "../description/provenance.ts";
import type { CoilFile, Solution } from "../workbench/contract.ts";
import type { Doubts } from "../workbench/doubts.ts";

/** What a rule may look at. */
export interface Context {
  readonly file: CoilFile;
  readonly coil: Coil;
  readonly solution: Solution | undefined;
  /** How sure each figure is, where that was asked for. */
  readonly doubts: Doubts | undefined;
  /**
   * Value of a figure in SI.
   * @throws OutOfDomain the solution lacks it; a rule reads only what it `needs`
   */
  value(id: string): number;
  /** Value of a figure in SI, or undefined where the solution lacks it. */
  valueIfKnown(id: string): number | undefined;
  /** Where the number at a path of the file came from; undefined where the file has no such number. */
  provenance(path: string): Provenance | undefined;
}

/** A finding as a rule hands it over; the rest is filled in from the rule. */
export interface Judgement {
  readonly severity: Severity;
  readonly path: string;
  readonly what: string;
  readonly expected?: string;
  /** Besides the rule's `needs` and `path`. */
  readonly evidence?: readonly string[];
  readonly remedies: readonly Remedy[];
}

export interface Rule {
  /** Kebab-case, names the trouble: `coupling-high`. */
  readonly id: string;
  /** What it looks for and what comes of it, one sentence. */
  readonly says: string;
  readonly source: SourceKey;
  /** Figures without which it has nothing to say. */
  readonly needs: readonly string[];
  findings(context: Context): readonly Finding[];
}

/**
 * Makes a rule. It is asked only where the solution holds every figure that it needs.
 *
 *   defineRule({ id: "coupling-high", says: "…", source: "common-practice", needs: ["coupling.k"], judge({ value }) { … } })
 */
export function defineRule(parts: {
  readonly id: string;
  readonly says: string;
  readonly source: SourceKey;
  readonly needs?: readonly string[];
  readonly judge: (context: Context) => readonly Judgement[];
}): Rule {
  const { id, says, source, needs = [], judge } = parts;
  return {
    id,
    says,
    source,
    needs,
    findings(context) {
      if (needs.some((figure) => context.valueIfKnown(figure) === undefined)) return [];
      return judge(context).map(({ evidence = [], ...judgement }) => ({
        rule: id,
        source,
        ...judgement,
        evidence: [...new Set([judgement.path, ...needs, ...evidence])],
      }));
    },
  };
}

/** What rules see of one file and its solution. */
export function contextOf({
  file,
  coil,
  solution,
  doubts,
}: {
  file: CoilFile;
  coil: Coil;
  solution: Solution | undefined;
  doubts: Doubts | undefined;
}): Context {
  const valueIfKnown = (id: string) => solution?.figures.get(id)?.value;
  return {
    file,
    coil,
    solution,
    doubts,
    valueIfKnown,
    value(id) {
      const found = valueIfKnown(id);
      if (found === undefined) throw new OutOfDomain("Context.value", `the solution has no figure ${id}`);
      return found;
    },
    provenance: (path) => file.provenances.get(path),
  };
}

/** A remedy that only hands can carry out. */
export const byHand = (says: string): Remedy => ({ says, edits: [] });

/** A remedy that sets keys of the coil file; it says exactly what it sets. */
export function setting(...edits: readonly Edit[]): Remedy {
  return { says: edits.map(({ path, value }) => `${path}: ${value ?? "(removed)"}`).join(" and "), edits };
}

/** Whether the number at a path is a guess: written so, or filled in by a default because nobody wrote it. */
export function isGuess(origin: Provenance | undefined): boolean {
  return origin !== undefined && (origin.origin === ("guessed" satisfies Origin) || origin.text === undefined);
}
