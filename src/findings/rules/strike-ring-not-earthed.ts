import { defineRule, setting } from "../rule.ts";

export const strikeRingNotEarthed = defineRule({
  id: "strike-ring-not-earthed",
  room: "shape",
  says: "A ring without its own bond to earth passes the strike on to the primary, and keeps its charge for whoever comes near.",
  source: "common-practice",
  judge({ coil }) {
    if (coil.primary?.strikeRing === undefined || coil.primary.strikeRing.earthed) return [];
    return [
      {
        severity: "stop",
        path: "primary.strikeRing.earthed",
        what: "the strike ring is not bonded to earth, so what strikes it goes on to the primary",
        expected: "earthed: true, by its own short strap to the coil's earth",
        remedies: [setting({ path: "primary.strikeRing.earthed", value: "true" })],
      },
    ];
  },
});
