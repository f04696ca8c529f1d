import { reach } from "../estimates.ts";
import { reachOrigin } from "../measures.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, quantityText, roughLength } from "../words.ts";

export const personWithinReach = defineRule({
  id: "person-within-reach",
  room: "stand-off",
  says: "A streamer that can reach a person carries mains, tank and stored charge to them along with its own current.",
  source: "stand-off-practice",
  judge(context) {
    const { coil } = context;
    const far = reach(context);
    if (far === undefined) return [];
    const line = Math.max(2 * far.high, far.high + 1.5);
    const origin = reachOrigin(coil);
    return coil.site.people.flatMap((person, index) => {
      const away = person.at - person.radius - origin.radius;
      if (away >= line) return [];
      const path = `site.people.${index}.at`;
      return [
        {
          severity: away < far.high ? ("stop" as const) : ("fix" as const),
          path,
          what: `somebody stands ${length(Math.max(0, away))} from the top load, and the arc may reach ${roughLength(far.high)} ${far.basis}`,
          expected: `nobody within ${roughLength(1.5 * far.high)}, one and a half times that, and bystanders behind a barrier ${roughLength(line)} or more away; local rules come first`,
          evidence: far.evidence,
          remedies: [
            setting({
              path,
              value: quantityText(context, {
                path,
                value: line + person.radius + origin.radius,
                dimension: "length",
                digits: 2,
                toward: "up",
              }),
            }),
            byHand("lower the overcurrent setting and the on-time limit, and judge it again"),
          ],
        },
      ];
    });
  },
});
