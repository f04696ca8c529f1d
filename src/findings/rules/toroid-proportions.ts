import { topLoadPath } from "../measures.ts";
import { defineRule, setting } from "../rule.ts";
import { length, number, quantityText } from "../words.ts";

const [least, most] = [0.13, 0.42];

export const toroidProportions = defineRule({
  id: "toroid-proportions",
  room: "shape",
  says: "A thin tube breaks out early and all around; a fat one on a small ring holds less charge than its size promises.",
  source: "common-practice",
  judge(context) {
    return context.coil.topload.flatMap((load, index) => {
      if (!("toroid" in load)) return [];
      const { outerDiameter, tubeDiameter } = load.toroid;
      const ratio = tubeDiameter / outerDiameter;
      if (ratio >= least && ratio <= most) return [];
      const path = topLoadPath(context.coil, index, "tubeDiameter");
      const value = (ratio < least ? 1.2 * least : 0.85 * most) * outerDiameter;
      return [
        {
          severity: "look" as const,
          path,
          what: `a tube of ${length(tubeDiameter)} on a toroid of ${length(outerDiameter)} is ${number(ratio)} of it`,
          expected: `${least} to ${most}; about a quarter is usual`,
          evidence: [topLoadPath(context.coil, index, "outerDiameter")],
          remedies: [setting({ path, value: quantityText(context, { path, value, dimension: "length", digits: 2 }) })],
        },
      ];
    });
  },
});
