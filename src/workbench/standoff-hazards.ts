/** Hazards that stand between a coil and its show sheet until somebody has acknowledged them by name. */
import type { Finding } from "../catalogue/finding.ts";
import type { Coil } from "../description/coil.ts";
import { type Hazard, hazards } from "../description/hazards.ts";
import type { HazardLine, Standoff } from "./standoff-contract.ts";

/** Every hazard, and whether the file acknowledges it. None can be left out because a coil is small. */
export const hazardLines = ({ show }: Pick<Coil, "show">): readonly HazardLine[] =>
  (Object.keys(hazards) as Hazard[]).map((name) => ({
    name,
    says: hazards[name],
    acknowledged: show?.acknowledged.includes(name) ?? false,
  }));

/**
 * What blocks the printing of a show sheet: each hazard that the file does not acknowledge, and what is not known of the line.
 *
 * @returns findings of severity `stop`, in the order of the hazards; empty means only that all were acknowledged, and is no permission
 */
export function blockingHazards(coil: Coil, standoff: Standoff): readonly Finding[] {
  const open = standoff.hazards.filter(({ acknowledged }) => !acknowledged);
  const named = [...(coil.show?.acknowledged ?? []), ...open.map(({ name }) => name)];
  const unknown: readonly Finding[] = standoff.figures.has("standoff.audience")
    ? []
    : [
        {
          rule: "standoff-line-unknown",
          severity: "stop",
          path: "show",
          what: "no line for bystanders can be computed from this file",
          expected: "the sections that a burst needs, so that a reach can be computed",
          evidence: ["show", ...standoff.missing.map(({ path }) => path)],
          remedies: [{ says: "complete the file; until then nobody but the operator is in the room", edits: [] }],
          source: "stand-off-practice",
        },
      ];
  return [
    ...unknown,
    ...open.map(
      ({ name, says }): Finding => ({
        rule: "standoff-hazard-open",
        severity: "stop",
        path: "show.acknowledged",
        what: `hazard ${name} is not acknowledged: ${says}`,
        expected: "whoever runs the show reads each hazard and adds its name; no show sheet is printed before",
        evidence: ["show.acknowledged"],
        remedies: [
          {
            says: `when read and taken on, one by one: show.acknowledged: [ ${named.join(", ")} ]`,
            edits: [],
          },
        ],
        source: "stand-off-practice",
      }),
    ),
  ];
}
