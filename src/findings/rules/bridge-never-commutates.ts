import { thresholdOf } from "../../workbench/burst-circuit.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes, volts } from "../words.ts";

/** First half-cycle over the comparator's threshold that makes a sure start. */
const sure = 3;

export const bridgeNeverCommutates = defineRule({
  id: "bridge-never-commutates",
  room: "burst",
  says: "A driver that sees no crossing holds one switch on through the whole burst, and the coil does nothing.",
  source: "burst-simulation",
  needs: ["burst.halfCycles", "poles.lower"],
  judge(context) {
    const { study, coil, value } = context;
    const { feedback } = coil;
    if (study === undefined || feedback === undefined || study.commutations.length > 0) return [];
    // A burst of one or two half-cycles has nothing to commutate for.
    if (study.setting.onTime < 1.5 / value("poles.lower")) return [];
    const threshold = thresholdOf(feedback);
    const first = Math.abs(study.envelope[0]?.[1] ?? 0);
    const { transformer, sense } = feedback;
    const path = "feedback.transformer.burden";
    return [
      {
        severity: "fix",
        path: transformer ? path : "feedback.sense",
        what: `the bridge never commutates: at ${volts(study.setting.busVoltage)} on the bus the sensed current does not pass the comparator's threshold of about ${amperes(threshold)}`,
        expected: `a first half-cycle of ${amperes(sure * threshold)} or more${sense === "primaryCurrent" ? `; it is ${amperes(first)}` : ""}`,
        remedies: [
          ...(transformer && sense === "primaryCurrent" && first > 0
            ? [
                setTo(context, {
                  path,
                  value: (transformer.burden * sure * threshold) / first,
                  dimension: "resistance",
                  digits: 2,
                  toward: "up",
                }),
              ]
            : []),
          byHand("use a transformer of fewer turns or a larger burden, or raise the bus"),
        ],
      },
    ];
  },
});
