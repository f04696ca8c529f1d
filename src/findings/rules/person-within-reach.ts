import { reach } from "../estimates.ts";
import { reachOrigin } from "../measures.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { length, roughLength } from "../words.ts";

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
      const at = line + person.radius + origin.radius;
      return [
        {
          severity: away < far.high ? ("stop" as const) : ("fix" as const),
          path,
          what: `somebody stands ${length(Math.max(0, away))} from the top load, and the arc may reach ${roughLength(far.high)} ${far.basis}`,
          expected: `nobody within ${roughLength(1.5 * far.high)}, one and a half times that, and bystanders behind a barrier ${roughLength(line)} or more away; local rules come first`,
          evidence: far.evidence,
          remedies: [
            ...(1.1 * at + person.radius < (coil.site.wall?.radius ?? Number.POSITIVE_INFINITY)
              ? [setTo(context, { path, value: at, dimension: "length", digits: 2, toward: "up" })]
              : [byHand("run it in a larger room: no place in this one lies behind that line")]),
            byHand("lower the overcurrent setting and the on-time limit, and judge it again"),
          ],
        },
      ];
    });
  },
});
