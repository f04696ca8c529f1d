import { byHand, defineRule } from "../rule.ts";

export const standoffShowMissing = defineRule({
  id: "standoff-show-missing",
  room: "stand-off",
  says: "Where operator, second person, breaker, earth and barrier are not in the file, nobody has looked at whether they are there.",
  source: "stand-off-practice",
  judge({ coil }) {
    if (coil.show !== undefined) return [];
    return [
      {
        severity: "look",
        path: "site",
        what: "the file does not say who stands where when it runs: operator, second person, breaker, earth, exit and barrier are not judged",
        expected: "a show section before anybody else is in the room; no show sheet is printed without it",
        remedies: [
          byHand(
            "measure the room, and write it down: show: { barrier, duration, room, operator, second, breaker, deadMan, exit, earth }; the keys are in the manual of the coil file",
          ),
        ],
      },
    ];
  },
});
