import { topLoadExtent, windingTop } from "../measures.ts";
import { topLoadMoved } from "../moves.ts";
import { defineRule } from "../rule.ts";
import { length } from "../words.ts";

export const topLoadHigh = defineRule({
  id: "top-load-high",
  room: "shape",
  says: "A top load far above the winding leaves the last turns unshielded, and the lead to it becomes the breakout.",
  source: "common-practice",
  judge(context) {
    const { coil } = context;
    const extent = topLoadExtent(coil);
    if (extent === undefined) return [];
    const gap = extent.bottomZ - windingTop(coil);
    const most = 0.35 * extent.outerR;
    if (gap <= most) return [];
    const good = 0.12 * extent.outerR;
    return [
      {
        severity: "look",
        path: "topload",
        what: `the top load's underside is ${length(gap)} above the winding's last turn`,
        expected: `at most about a third of the top load's radius, ${length(most)}`,
        evidence: ["secondary.baseHeight", "secondary.length"],
        remedies: [topLoadMoved(context, good - gap)],
      },
    ];
  },
});
