import { byHand, defineRule } from "../rule.ts";

export const standoffStopMissing = defineRule({
  id: "standoff-stop-missing",
  room: "stand-off",
  says: "A coil that runs on when its operator falls, turns away or lets go cannot be stopped in time.",
  source: "stand-off-practice",
  judge({ coil: { show } }) {
    if (show === undefined || (show.deadMan && show.operator)) return [];
    return [
      {
        severity: "fix",
        path: show.deadMan ? "show.operator" : "show.deadMan",
        what: show.deadMan
          ? "there is a stop, but no operator is given who holds it"
          : "no stop is given that cuts the coil when it is let go",
        expected: "one trained operator outside the strike distance, with such a stop in hand",
        remedies: [byHand("build one in, try it with the bus off, and write it down with the operator's place")],
      },
    ];
  },
});
