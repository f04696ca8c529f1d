import { byHand, defineRule } from "../rule.ts";

export const standoffSecondMissing = defineRule({
  id: "standoff-second-missing",
  room: "stand-off",
  says: "Whoever is alone with it has nobody to pull the plug.",
  source: "stand-off-practice",
  judge({ coil: { show } }) {
    if (show === undefined || show.second !== undefined) return [];
    return [
      {
        severity: "fix",
        path: "show.second",
        what: "no second person is given",
        expected: "a second person at breaker or plug, with nothing else to do, who can resuscitate",
        remedies: [byHand("find one, agree on words, and write down where they stand")],
      },
    ];
  },
});
