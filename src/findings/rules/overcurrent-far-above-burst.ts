import { busVoltage } from "../estimates.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

/** Trip over the greatest peak of any burst beyond which a fault has grown far before it is caught. Common practice, no source. */
const far = 2;

export const overcurrentFarAboveBurst = defineRule({
  id: "overcurrent-far-above-burst",
  room: "driver",
  says: "A trip far above what any burst reaches lets a fault grow to that before it acts.",
  source: "common-practice",
  needs: ["burst.peakPrimaryCurrent"],
  judge(context) {
    const { feedback, supply } = context.coil;
    const found = greatest(context, "burst.peakPrimaryCurrent");
    const trip = feedback?.overcurrent;
    if (found === undefined || trip === undefined || supply === undefined) return [];
    // At a bus that was turned down for a first trial the current says nothing about the trip.
    if (found.study.setting.busVoltage < 0.8 * busVoltage(supply)) return [];
    const most = found.most.value;
    if (trip <= far * most) return [];
    const path = "feedback.overcurrent";
    return [
      {
        severity: "look",
        path,
        what: `the trip stands at ${amperes(trip)}; the current peaks at ${amperes(most)} ${found.basis}`,
        expected: `at most ${amperes(far * most)}, twice that`,
        evidence: found.evidence,
        remedies: [
          setTo(context, { path, value: 1.4 * most, dimension: "current", digits: 2, toward: "up" }),
          byHand("leave it where a burst without streamer is known to need it"),
        ],
      },
    ];
  },
});
