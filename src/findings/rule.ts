/** What a rule is: one idea that a coil can be judged by, from the coil and its figures to findings. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Figure } from "../catalogue/figure.ts";
import type { Edit, Finding, Remedy, Severity } from "../catalogue/finding.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import type { Coil } from "../description/coil.ts";
import type { Origin, Provenance } from "../description/provenance.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import type { CoilFile, Solution } from "../workbench/contract.ts";
import type { Doubts } from "../workbench/doubts.ts";

/** What a rule may look at. */
export interface Context {
  readonly file: CoilFile;
  readonly coil: Coil;
  readonly solution: Solution | undefined;
  /** The burst at the setting, where it was studied. */
  readonly study: BurstStudy | undefined;
  /** The burst at the interrupter's hard limits, where it was studied: `settingAtLimits`. */
  readonly atLimits: BurstStudy | undefined;
  /** That burst if the top never broke out, where it was studied: `settingUnlit`. */
  readonly unlit: BurstStudy | undefined;
  /** Others inside the limits that go beyond these: `settingsBeyond`. */
  readonly beyond: readonly BurstStudy[];
  /** How sure each figure is, where that was asked for. */
  readonly doubts: Doubts | undefined;
  /** A figure of the solution or of the burst at the setting; undefined where neither has it. */
  figure(id: string): Figure | undefined;
  /**
   * Value of such a figure in SI.
   * @throws OutOfDomain it is not known; a rule reads only what it `needs`
   */
  value(id: string): number;
  /** Value of such a figure in SI, or undefined where it is not known. */
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

/** The room that a rule belongs to: where its question is asked. */
export type Room = "shape" | "resonance" | "burst" | "driver" | "programme" | "stand-off";

export interface Rule {
  /** Kebab-case, names the trouble: `coupling-high`. */
  readonly id: string;
  readonly room: Room;
  /** What it looks for and what comes of it, one sentence. */
  readonly says: string;
  readonly source: SourceKey;
  /** Figures without which it has nothing to say. */
  readonly needs: readonly string[];
  findings(context: Context): readonly Finding[];
}

/**
 * Makes a rule. It is asked only where every figure that it needs is known.
 *
 *   defineRule({ id: "coupling-high", room: "resonance", says: "…", source: "common-practice", needs: ["coupling.k"], judge({ value }) { … } })
 */
export function defineRule(parts: {
  readonly id: string;
  readonly room: Room;
  readonly says: string;
  readonly source: SourceKey;
  readonly needs?: readonly string[];
  readonly judge: (context: Context) => readonly Judgement[];
}): Rule {
  const { id, room, says, source, needs = [], judge } = parts;
  return {
    id,
    room,
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

/** What rules see of one file, its solution and its burst. */
export function contextOf({
  file,
  coil,
  solution,
  study,
  atLimits,
  unlit,
  beyond = [],
  doubts,
}: Pick<Context, "file" | "coil" | "solution" | "doubts"> &
  Partial<Pick<Context, "study" | "atLimits" | "unlit" | "beyond">>): Context {
  const figure = (id: string) => solution?.figures.get(id) ?? study?.figures.get(id);
  const valueIfKnown = (id: string) => figure(id)?.value;
  return {
    file,
    coil,
    solution,
    study,
    atLimits,
    unlit,
    beyond,
    doubts,
    figure,
    valueIfKnown,
    value(id) {
      const found = valueIfKnown(id);
      if (found === undefined) throw new OutOfDomain("Context.value", `there is no figure ${id}`);
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
