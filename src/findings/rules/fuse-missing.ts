import { fuseFor } from "../fuse-ratings.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

export const fuseMissing = defineRule({
  id: "fuse-missing",
  room: "driver",
  says: "A bridge that fails shorts the bus; without a fuse of its own the cable and the room's breaker end it.",
  source: "common-practice",
  needs: ["mains.inrushPeak"],
  judge(context) {
    const { supply } = context.coil;
    if (supply === undefined || supply.fuse !== undefined) return [];
    const current = context.figure("mains.currentRms");
    const most = current?.high ?? current?.value;
    const size = most === undefined ? undefined : fuseFor(1.5 * most);
    return [
      {
        severity: "fix",
        path: "supply.fuse",
        what: `no mains fuse stands in the file${most === undefined ? "" : `; the bus takes up to ${amperes(most)}`}`,
        expected: "fuse: a time-lag fuse of about one and a half times the greatest current",
        evidence: current ? ["mains.currentRms"] : [],
        remedies: [
          ...(size === undefined ? [] : [setTo(context, { path: "supply.fuse", value: size, dimension: "current" })]),
          byHand("fit one in the live conductor, and write it down"),
        ],
      },
    ];
  },
});
