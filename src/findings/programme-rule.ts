/** Rules about a programme: they see what every rule sees, and the planned song. */
import type { SourceKey } from "../catalogue/sources.ts";
import type { ProgrammeStudy } from "../workbench/programme-contract.ts";
import { type Context, defineRule, type Judgement, type Rule } from "./rule.ts";

export interface ProgrammeContext extends Context {
  readonly programme: ProgrammeStudy;
}

/** As `defineRule`; asked only where a song was planned. */
export function defineProgrammeRule({
  judge,
  ...parts
}: {
  readonly id: string;
  readonly says: string;
  readonly source: SourceKey;
  readonly needs?: readonly string[];
  readonly judge: (context: ProgrammeContext) => readonly Judgement[];
}): Rule {
  return defineRule({
    ...parts,
    room: "programme",
    judge: (context) => (isOfProgramme(context) ? judge(context) : []),
  });
}

const isOfProgramme = (context: Context): context is ProgrammeContext => "programme" in context;

/** The same context with a programme and its figures. */
export function withProgramme(context: Context, programme: ProgrammeStudy): ProgrammeContext {
  const figure = (id: string) => programme.figures.get(id) ?? context.figure(id);
  return {
    ...context,
    programme,
    figure,
    valueIfKnown: (id) => figure(id)?.value,
    value: (id) => programme.figures.get(id)?.value ?? context.value(id),
  };
}

type Reasons = ProgrammeStudy["reasons"];
export type ReasonKey = keyof Reasons;

/** Why, in the words of somebody at the coil. */
export const reasonWords: Readonly<Record<ReasonKey, string>> = {
  none: "without a reason",
  collision: "since they met a pulse of another note",
  onTime: "to keep the longest on-time",
  gap: "to keep the gap between pulses",
  rate: "to keep the rate",
  duty: "to keep the duty",
  power: "to keep what the fuse lets through",
  junction: "to keep the junction below its limit",
  capacitor: "to keep the bank from getting hot",
  bus: "to keep the bus from falling too low",
  muted: "since their voice is muted",
};

/** `30 to keep the rate and 4 since they met a pulse of another note`, the commonest first; empty where there is none. */
export function countsByReason(reasons: Reasons, kind: "trimmed" | "dropped"): string {
  const told = (Object.entries(reasons) as readonly (readonly [ReasonKey, Reasons[ReasonKey]])[])
    .filter(([reason, tally]) => tally[kind] > 0 && reason !== "muted")
    .sort(([, a], [, b]) => b[kind] - a[kind])
    .map(([reason, tally]) => `${tally[kind]} ${reasonWords[reason]}`);
  return told.length < 2 ? told.join("") : `${told.slice(0, -1).join(", ")} and ${told.at(-1)}`;
}

/** `1 note`, `3 notes`. */
export const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;
