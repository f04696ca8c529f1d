import { byHand, defineRule } from "../rule.ts";

export const standoffExitMissing = defineRule({
  id: "standoff-exit-missing",
  room: "stand-off",
  says: "In smoke, dark or panic people go the way that they were shown.",
  source: "stand-off-practice",
  judge({ coil: { show } }) {
    if (show === undefined || show.exit !== undefined) return [];
    return [
      {
        severity: "look",
        path: "show.exit",
        what: "no way out is given",
        expected: "a way out that does not pass the coil, clear and lit",
        remedies: [byHand("look for it with the venue and write it down")],
      },
    ];
  },
});
