import { currentTransformerLead } from "../../circuit/current-transformer.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { degrees, ohms } from "../words.ts";

/** Inductance [H] of one turn squared on the smallest usual ferrite ring, hot. From memory. */
const perTurnSquared = 0.5e-6;
/** Angle [rad] from which it moves the crossing noticeably: 3°. */
const look = Math.PI / 60;

export const senseTransformerLeads = defineRule({
  id: "sense-transformer-leads",
  room: "driver",
  says: "A current transformer of few turns with a large burden leads the current; the gates then change early by that angle.",
  source: "current-transformer",
  needs: ["poles.lower"],
  judge(context) {
    const { feedback } = context.coil;
    if (feedback?.transformer === undefined || typeof feedback.sense !== "string") return [];
    const { ratio, burden } = feedback.transformer;
    const frequency = context.valueIfKnown("burst.frequency") ?? context.value("poles.lower");
    const angle = currentTransformerLead({
      burden,
      windingResistance: 0,
      frequency,
      magnetisingInductance: perTurnSquared * ratio ** 2,
    });
    if (angle <= look) return [];
    const path = "feedback.transformer.burden";
    return [
      {
        severity: "look",
        path,
        what: `with ${ohms(burden)} on ${ratio} turns of a small ferrite ring the sensed current may lead by ${degrees(angle)}`,
        expected: `at most ${degrees(look)}`,
        evidence: ["feedback.transformer.ratio", "feedback.lead"],
        remedies: [
          setTo(context, {
            path,
            value: (0.9 * burden * look) / angle,
            dimension: "resistance",
            digits: 2,
            toward: "down",
          }),
          byHand("use more turns, or take the angle off the lead"),
        ],
      },
    ];
  },
});
