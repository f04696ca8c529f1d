import { topLoadExtent } from "../measures.ts";
import { byHand, defineRule } from "../rule.ts";
import { length } from "../words.ts";

/** Top load over former diameter below which the winding's end looks out from under it. */
const least = 1.3;

export const topLoadNarrow = defineRule({
  id: "top-load-narrow",
  room: "shape",
  says: "A top load hardly wider than the winding does not shield its last turns.",
  source: "common-practice",
  judge({ coil }) {
    const extent = topLoadExtent(coil);
    const { outerDiameter } = coil.secondary.former;
    if (extent === undefined || 2 * extent.outerR >= least * outerDiameter) return [];
    return [
      {
        severity: "look",
        path: "topload",
        what: `the top load is ${length(2 * extent.outerR)} wide on a former of ${length(outerDiameter)}`,
        expected: `at least ${least} times the former, ${length(least * outerDiameter)}; 2 to 3 times is usual`,
        evidence: ["secondary.former.outerDiameter"],
        remedies: [byHand("use a wider top load, or add a wider one under it")],
      },
    ];
  },
});
