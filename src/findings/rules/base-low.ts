import { coilLiftedTo } from "../moves.ts";
import { defineRule } from "../rule.ts";
import { length } from "../words.ts";

/** Base height over former diameter below which floor and winding see too much of each other. */
const least = 0.5;

export const baseLow = defineRule({
  id: "base-low",
  room: "shape",
  says: "A winding close to the floor loses in what lies under it and shifts its tune with every floor.",
  source: "common-practice",
  judge(context) {
    const { baseHeight, former } = context.coil.secondary;
    if (baseHeight >= least * former.outerDiameter) return [];
    const path = "secondary.baseHeight";
    return [
      {
        severity: "look",
        path,
        what: `the lowest turn is ${length(baseHeight)} above the ground plane, under a winding of ${length(former.outerDiameter)}`,
        expected: `at least half the winding's diameter, ${length(least * former.outerDiameter)}`,
        evidence: ["secondary.former.outerDiameter"],
        remedies: [coilLiftedTo(context, least * former.outerDiameter)],
      },
    ];
  },
});
