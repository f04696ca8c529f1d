import { byHand, defineRule } from "../rule.ts";
import { apart } from "../standoff-of.ts";
import { roughLength } from "../words.ts";

/** An arm and a step [m]. Common practice, no source. */
const armAndStep = 1.5;

export const standoffBreakerOutOfReach = defineRule({
  id: "standoff-breaker-out-of-reach",
  room: "stand-off",
  says: "Seconds count, and nobody crosses the line to switch off.",
  source: "stand-off-practice",
  judge({ coil: { show } }) {
    if (show === undefined) return [];
    const { breaker, operator, second } = show;
    const people = [operator, second].filter((one) => one !== undefined);
    const near = breaker && people.length > 0 ? Math.min(...people.map((one) => apart(one, breaker))) : undefined;
    if (near !== undefined && near <= armAndStep) return [];
    return [
      {
        severity: "fix",
        path: "show.breaker",
        what:
          breaker === undefined
            ? "no breaker or plug is given that cuts the mains"
            : `the breaker is ${near === undefined ? "nobody's" : `${roughLength(near)} from the nearest of operator and second person`}`,
        expected: `breaker or plug within ${roughLength(armAndStep)} of one of them, outside the strike distance`,
        remedies: [byHand("lay the lead so that plug or breaker lies beside the second person")],
      },
    ];
  },
});
