/** The rules that are asked when a song was planned, and what they say. A new rule is one file and one line here. */
import type { Finding } from "../catalogue/finding.ts";
import type { CoilFile, Solution } from "../workbench/contract.ts";
import type { ProgrammeStudy } from "../workbench/programme-contract.ts";
import { placeOf } from "./place.ts";
import { withProgramme } from "./programme-rule.ts";
import { contextOf, type Rule } from "./rule.ts";
import { programmeBusSags } from "./rules/programme-bus-sags.ts";
import { programmeEnergiesDoubtful } from "./rules/programme-energies-doubtful.ts";
import { programmeJunctionNearLimit } from "./rules/programme-junction-near-limit.ts";
import { programmeLimitsAssumed } from "./rules/programme-limits-assumed.ts";
import { programmeNotesLowered } from "./rules/programme-notes-lowered.ts";
import { programmeNotesMissing } from "./rules/programme-notes-missing.ts";
import { programmePitchOff } from "./rules/programme-pitch-off.ts";
import { programmePowerNearFuse } from "./rules/programme-power-near-fuse.ts";
import { programmePulsesMissing } from "./rules/programme-pulses-missing.ts";
import { programmeRateReached } from "./rules/programme-rate-reached.ts";
import { programmeShortened } from "./rules/programme-shortened.ts";
import { programmeSilent } from "./rules/programme-silent.ts";
import { programmeUnlit } from "./rules/programme-unlit.ts";

export const programmeRules: readonly Rule[] = [
  programmeBusSags,
  programmeEnergiesDoubtful,
  programmeJunctionNearLimit,
  programmeLimitsAssumed,
  programmeNotesLowered,
  programmeNotesMissing,
  programmePitchOff,
  programmePowerNearFuse,
  programmePulsesMissing,
  programmeRateReached,
  programmeShortened,
  programmeSilent,
  programmeUnlit,
];

const order = ["stop", "fix", "look"];

/** What is to be said about a planned song, beside what `assess` says of the coil: worst first. */
export function assessProgramme({
  file,
  solution,
  programme,
}: {
  file: CoilFile;
  solution?: Solution;
  programme: ProgrammeStudy;
}): readonly Finding[] {
  const { coil } = file;
  if (coil === undefined) return [];
  const nothing = { study: undefined, atLimits: undefined, unlit: undefined, beyond: [], doubts: undefined };
  const context = withProgramme(contextOf({ file, coil, solution, ...nothing }), programme);
  return programmeRules
    .flatMap((rule) => rule.findings(context))
    .map((finding): Finding => {
      const place = placeOf(file, finding.path);
      return place ? { ...finding, place } : finding;
    })
    .sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity));
}
