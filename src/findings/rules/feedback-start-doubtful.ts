import { thresholdOf } from "../../workbench/burst-circuit.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

/** First half-cycle over the threshold below which the start depends on offset and noise. Common practice, no source. */
const doubtful = 3;

export const feedbackStartDoubtful = defineRule({
  id: "feedback-start-doubtful",
  room: "driver",
  says: "Where the first half-cycle hardly passes the comparator's threshold, offset and noise decide whether a burst starts.",
  source: "common-practice",
  needs: ["burst.peakPrimaryCurrent"],
  judge(context) {
    const { study, coil } = context;
    const { feedback } = coil;
    if (study === undefined || feedback?.sense !== "primaryCurrent" || study.commutations.length === 0) return [];
    const threshold = thresholdOf(feedback);
    const first = Math.abs(study.envelope[0]?.[1] ?? 0);
    if (first === 0 || first >= doubtful * threshold) return [];
    const { transformer } = feedback;
    const path = "feedback.transformer.burden";
    return [
      {
        severity: "look",
        path: transformer ? path : "feedback.sense",
        what: `the first half-cycle reaches ${amperes(first)}, the comparator's threshold is about ${amperes(threshold)}`,
        expected: `${amperes(doubtful * threshold)} or more`,
        remedies: [
          ...(transformer
            ? [
                setTo(context, {
                  path,
                  value: (1.02 * transformer.burden * doubtful * threshold) / first,
                  dimension: "resistance",
                  digits: 2,
                  toward: "up",
                }),
              ]
            : []),
          byHand("use a transformer of fewer turns, or kick the first half-cycle with a pulse of fixed length"),
        ],
      },
    ];
  },
});
