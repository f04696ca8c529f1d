import { byHand, defineRule } from "../rule.ts";
import { percent } from "../words.ts";

/** Part of the first ringing at the lower pole between which neither pole leads. */
const [least, greatest] = [0.45, 0.55];

export const poleUndecided = defineRule({
  id: "pole-undecided",
  room: "burst",
  says: "Where the first edge rings both poles alike, a little detuning, a hand or the first streamer decides on which one the burst runs.",
  source: "coupled-circuits",
  needs: ["burst.frequency"],
  judge({ study, coil }) {
    const lock = study?.lock;
    if (lock === undefined || typeof coil.feedback?.sense !== "string") return [];
    if (lock.kickAtLower < least || lock.kickAtLower > greatest) return [];
    return [
      {
        severity: "look",
        path: "feedback.sense",
        what: `the first edge rings the sensed current with ${percent(lock.kickAtLower)} at the lower pole and the rest at the upper`,
        expected: `less than ${percent(least)} or more than ${percent(greatest)} at the lower pole`,
        evidence: ["poles.lower", "poles.upper", "tuning.ratio"],
        remedies: [
          byHand(
            "watch the first half-cycles on an oscilloscope at low bus voltage: their beat shows on which pole it runs",
          ),
          byHand("tune the tank further below the secondary"),
        ],
      },
    ];
  },
});
