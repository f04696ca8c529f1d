import { reach } from "../estimates.ts";
import { reachOrigin } from "../measures.ts";
import { byHand, defineRule } from "../rule.ts";
import { length, roughLength } from "../words.ts";

export const objectWithinReach = defineRule({
  id: "object-within-reach",
  room: "stand-off",
  says: "What is within reach is struck; where that is meant, it must be able to take it.",
  source: "stand-off-practice",
  judge(context) {
    const { coil } = context;
    const far = reach(context);
    if (far === undefined) return [];
    const origin = reachOrigin(coil);
    return coil.site.objects.flatMap((object, index) => {
      const across = Math.max(0, object.at - object.diameter / 2 - origin.radius);
      const away = Math.hypot(across, Math.max(0, origin.middle - object.height));
      // A rod that is not earthed is the other rule's business.
      if (away >= far.high || !object.earthed) return [];
      return [
        {
          severity: "look" as const,
          path: `site.objects.${index}.at`,
          what: `the ${object.kind} is ${length(away)} from the top load, and the arc may reach ${roughLength(far.high)} ${far.basis}`,
          expected: "an earthed target that carries every strike to the coil's own earth, or more distance",
          evidence: far.evidence,
          remedies: [
            byHand("bond it with a short strap to the coil's earth and keep people away from it"),
            byHand("move it away"),
          ],
        },
      ];
    });
  },
});
