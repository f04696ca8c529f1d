import { defineRule, setting } from "../rule.ts";

export const strikeRingClosed = defineRule({
  id: "strike-ring-closed",
  room: "shape",
  says: "A closed ring is a shorted turn: it takes inductance from the primary and heat from the bridge.",
  source: "rosa-grover-169",
  judge({ coil }) {
    if (!coil.primary?.strikeRing?.closed) return [];
    return [
      {
        severity: "fix",
        path: "primary.strikeRing.closed",
        what: "the strike ring is a closed turn around the primary and carries a current of its own",
        expected: "closed: false, with a gap of a few centimetres bridged by insulation",
        remedies: [setting({ path: "primary.strikeRing.closed", value: "false" })],
      },
    ];
  },
});
