import { byHand, defineRule, setting } from "../rule.ts";
import { length } from "../words.ts";

const least = 0.1e-3;

export const coatingThin = defineRule({
  id: "coating-thin",
  room: "shape",
  says: "A coat thinner than the grooves between turns leaves the crowns bare.",
  source: "common-practice",
  judge({ coil }) {
    const { coating } = coil.secondary;
    if (coating === undefined || coating.thickness >= least) return [];
    return [
      {
        severity: "look",
        path: "secondary.coating.thickness",
        what: `a coat of ${length(coating.thickness)} leaves the crowns of the turns bare`,
        expected: `${length(least)} or thicker, in several coats`,
        remedies: [setting({ path: "secondary.coating.thickness", value: "0.3 mm" }), byHand("lay further coats")],
      },
    ];
  },
});
