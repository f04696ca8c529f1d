import { topLoadExtent, windingTop } from "../measures.ts";
import { topLoadMoved } from "../moves.ts";
import { defineRule } from "../rule.ts";
import { length } from "../words.ts";

export const topLoadLow = defineRule({
  id: "top-load-low",
  room: "shape",
  says: "A top load that hangs beside the winding stands at full voltage next to turns that do not, and flashes over to them.",
  source: "common-practice",
  judge(context) {
    const { coil } = context;
    const extent = topLoadExtent(coil);
    if (extent === undefined) return [];
    const overlap = windingTop(coil) - extent.bottomZ;
    if (overlap <= 0) return [];
    const share = overlap / coil.secondary.length;
    return [
      {
        severity: share > 0.15 ? "fix" : "look",
        path: "topload",
        what: `the top load reaches ${length(overlap)} below the winding's last turn`,
        expected: "its underside at or above the last turn",
        evidence: ["secondary.baseHeight", "secondary.length"],
        remedies: [topLoadMoved(context, overlap + 0.05 * extent.outerR)],
      },
    ];
  },
});
