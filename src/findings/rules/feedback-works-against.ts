import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes, hertz } from "../words.ts";

/** Frequency over the upper pole, or the lower pole over it, beyond which no pole is followed. */
const away = 1.25;

export const feedbackWorksAgainst = defineRule({
  id: "feedback-works-against",
  room: "burst",
  says: "Feedback with the wrong sign, or with more lead than half a period, switches against the current at each crossing and chatters far above the poles.",
  source: "burst-simulation",
  needs: ["burst.frequency", "burst.peakPrimaryCurrent", "poles.lower", "poles.upper"],
  judge(context) {
    const { coil, value } = context;
    const { feedback } = coil;
    if (feedback === undefined || typeof feedback.sense !== "string") return [];
    const [frequency, lower, upper] = [value("burst.frequency"), value("poles.lower"), value("poles.upper")];
    if (frequency < away * upper && frequency > lower / away) return [];
    return [
      {
        severity: "fix",
        path: "feedback.sense",
        what: `the bridge switches at ${hertz(frequency)}, away from both poles at ${hertz(lower)} and ${hertz(upper)}, and the current stays at ${amperes(value("burst.peakPrimaryCurrent"))}`,
        expected: "a burst that runs near one of the poles",
        evidence: ["feedback.delay", "feedback.lead"],
        remedies: [
          byHand("turn the sense transformer's two leads round"),
          ...(feedback.lead > feedback.delay
            ? [setTo(context, { path: "feedback.lead", value: feedback.delay, dimension: "time" })]
            : []),
        ],
      },
    ];
  },
});
