import { burstsThinned } from "../bursts.ts";
import { fuseFor } from "../fuse-ratings.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

/** Part of its rating that a fuse carries for hours. Common practice, no source. */
const steady = 0.75;

export const fuseBelowCurrent = defineRule({
  id: "fuse-below-current",
  room: "driver",
  says: "A fuse at its rating ages and lets go in the middle of a song.",
  source: "iec-60127",
  needs: ["mains.currentRms"],
  judge(context) {
    const { supply } = context.coil;
    const found = greatest(context, "mains.currentRms", "high");
    const fuse = supply?.fuse;
    if (found === undefined || fuse === undefined) return [];
    const most = found.most.high ?? found.most.value;
    if (most <= steady * fuse) return [];
    const path = "supply.fuse";
    const size = fuseFor(most / steady);
    return [
      {
        severity: found.now.value > fuse ? "fix" : "look",
        path,
        what: `the bus takes ${amperes(found.most.value)} effective from the mains ${found.basis}, up to ${amperes(most)}; the fuse is ${amperes(fuse)}`,
        expected: `at most ${amperes(steady * fuse)}, three quarters of its rating`,
        evidence: [...found.evidence, "mains.powerFactor"],
        remedies: [
          ...(size === undefined ? [] : [setTo(context, { path, value: size, dimension: "current" })]),
          ...burstsThinned(context, (steady * fuse) / most),
          byHand("only as large as cable and socket allow"),
        ],
      },
    ];
  },
});
