import type { Finding, Place, Severity } from "../catalogue/finding.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import type { CoilFile, Solution } from "../workbench/contract.ts";
import type { Doubts } from "../workbench/doubts.ts";
import { placeOf } from "./place.ts";
import { isPossible } from "./possible.ts";
import { byHand, contextOf } from "./rule.ts";
import { rules } from "./rule-list.ts";

const order: Readonly<Record<Severity, number>> = { stop: 0, fix: 1, look: 2 };

/**
 * Everything that is to be said about a coil file: what its reader found, and what the rules find in the coil and its solution.
 *
 * @param solution      without it only the rules that need no figure are asked
 * @param study         of the burst at the setting; without it the rules about burst and driver that need its figures are not asked, and
 *                      the others estimate what it would have told
 * @param atLimits      of the burst at `settingAtLimits`; without it nothing is said about what the interrupter would still let through
 * @param unlit         of the burst at `settingUnlit`; without it nothing is said about what a burst without breakout asks of the parts
 * @param beyond        others inside the limits that go beyond these; without them the worst of the others is judged by
 * @param doubts        with them the rules that weigh a guess are asked too
 * @param resolvePlace  finds a path in the text; by what the reader kept where absent
 * @returns worst first, then by place in the file
 */
export function assess({
  file,
  solution,
  study,
  atLimits,
  unlit,
  beyond,
  doubts,
  resolvePlace = placeOf,
}: {
  file: CoilFile;
  solution?: Solution;
  study?: BurstStudy;
  atLimits?: BurstStudy;
  unlit?: BurstStudy;
  beyond?: readonly BurstStudy[];
  doubts?: Doubts;
  resolvePlace?: (file: CoilFile, path: string) => Place | undefined;
}): readonly Finding[] {
  const { coil } = file;
  const context =
    coil && contextOf({ file, coil, solution, study, atLimits, unlit, ...(beyond ? { beyond } : {}), doubts });
  const judged = context ? rules.flatMap((rule) => rule.findings(context)).map(withPossibleRemedies) : [];
  const placed = [...file.findings, ...judged].map((finding): Finding => {
    const place = finding.place ?? resolvePlace(file, finding.path);
    return place ? { ...finding, place } : finding;
  });
  return placed
    .map((finding, index) => ({ finding, index }))
    .sort(
      (a, b) =>
        order[a.finding.severity] - order[b.finding.severity] ||
        (a.finding.place?.line ?? 0) - (b.finding.place?.line ?? 0) ||
        (a.finding.place?.column ?? 0) - (b.finding.place?.column ?? 0) ||
        a.index - b.index,
    )
    .map(({ finding }) => finding);
}

/** Without remedies that would leave no coil; where that takes the last one, what was expected is left to be reached by hand. */
function withPossibleRemedies(finding: Finding): Finding {
  const remedies = finding.remedies.filter(isPossible);
  if (remedies.length === finding.remedies.length) return finding;
  if (remedies.length > 0) return { ...finding, remedies };
  return {
    ...finding,
    remedies: [byHand("no value that the file takes does it: look for a number that is out by a power of ten")],
  };
}
