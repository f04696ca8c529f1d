import { hazardLines } from "../../workbench/standoff-hazards.ts";
import { byHand, defineRule } from "../rule.ts";

export const standoffHazardOpen = defineRule({
  id: "standoff-hazard-open",
  room: "stand-off",
  says: "A hazard that nobody has taken on by name is one that nobody watches.",
  source: "stand-off-practice",
  judge({ coil }) {
    if (coil.show === undefined) return [];
    return hazardLines(coil)
      .filter(({ acknowledged }) => !acknowledged)
      .map(({ name, says }) => ({
        severity: "stop" as const,
        path: "show.acknowledged",
        what: `hazard ${name} is not acknowledged: ${says}`,
        expected: "whoever runs the show reads each hazard and adds its name; no show sheet is printed before",
        remedies: [byHand(`read it with the second person, then add ${name} to show.acknowledged`)],
      }));
  },
});
