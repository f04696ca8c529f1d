import { nearestWall } from "../../description/walls.ts";
import { reach } from "../estimates.ts";
import { reachOrigin } from "../measures.ts";
import { byHand, defineRule } from "../rule.ts";
import { length, roughLength } from "../words.ts";

export const roomWithinReach = defineRule({
  id: "room-within-reach",
  room: "stand-off",
  says: "A wall or ceiling within reach is struck: wiring, sprinklers, alarms and beams in it are earthed targets.",
  source: "stand-off-practice",
  judge(context) {
    const { coil } = context;
    const far = reach(context);
    if (far === undefined) return [];
    const origin = reachOrigin(coil);
    const { ceiling } = coil.site;
    const wall = nearestWall(coil);
    const clear = [
      ...(wall ? [{ path: wall.path, called: "wall", away: wall.away - origin.radius }] : []),
      ...(ceiling ? [{ path: "site.ceiling", called: "ceiling", away: ceiling.height - origin.top }] : []),
    ];
    return clear.flatMap(({ path, called, away }) =>
      away >= far.high
        ? []
        : [
            {
              severity: away < far.low ? ("fix" as const) : ("look" as const),
              path,
              what: `the ${called} is ${length(Math.max(0, away))} from the top load, and the arc may reach ${roughLength(far.high)} ${far.basis}`,
              expected: `more than ${roughLength(far.high)} to the ${called}, and nothing in it that may not be struck`,
              evidence: far.evidence,
              remedies: [
                byHand("move to a larger room"),
                byHand("lower the overcurrent setting and the on-time limit"),
              ],
            },
          ],
    );
  },
});
