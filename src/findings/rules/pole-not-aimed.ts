import { lead } from "../gate-timing.ts";
import { byHand, defineRule } from "../rule.ts";
import { hertz, percent } from "../words.ts";

export const poleNotAimed = defineRule({
  id: "pole-not-aimed",
  room: "burst",
  says: "A tank tuned below the secondary hands over its energy at the lower pole, one tuned above it at the upper; a driver that runs on the other pole feeds the tank instead.",
  source: "coupled-circuits",
  needs: ["burst.frequency", "tuning.aimRatio", "poles.lower", "poles.upper"],
  judge(context) {
    const { study, value } = context;
    const pole = study?.lock?.pole;
    if (study?.lock === undefined || pole === undefined || pole === "none") return [];
    const aimed = value("tuning.aimRatio") <= 1 ? "lower" : "upper";
    if (pole === aimed) return [];
    return [
      {
        severity: "look",
        path: "feedback",
        what: `the burst runs at ${hertz(value("burst.frequency"))}, on the ${pole} pole (${hertz(value(`poles.${pole}`))}); a tank aimed ${aimed === "lower" ? "below" : "above"} the secondary is meant for the ${aimed} one, ${hertz(value(`poles.${aimed}`))}`,
        expected: `a burst within a few per cent of ${hertz(value(`poles.${aimed}`))}; the first edge rings there with ${percent(aimed === "lower" ? study.lock.kickAtLower : 1 - study.lock.kickAtLower)} of its amplitude`,
        evidence: ["tuning.ratio", "feedback.delay", "feedback.lead"],
        remedies: [
          ...lead(context),
          byHand(
            aimed === "lower"
              ? "move the tap outwards or enlarge the bank, so that the first edge rings more at the lower pole"
              : "move the tap inwards or make the bank smaller",
          ),
        ],
      },
    ];
  },
});
