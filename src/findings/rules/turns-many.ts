import { byHand, defineRule } from "../rule.ts";

const many = 2200;

export const turnsMany = defineRule({
  id: "turns-many",
  room: "shape",
  says: "Very many turns mean hair-thin wire, much resistance and a resonance so low that the tank grows large.",
  source: "common-practice",
  judge({ coil }) {
    const { turns } = coil.secondary;
    if (turns <= many) return [];
    return [
      {
        severity: "look",
        path: "secondary.turns",
        what: `${turns} turns are many for a winding that a bridge has to drive`,
        expected: `at most ${many} turns; 800 to 1600 are usual`,
        remedies: [byHand("use thicker wire and fewer turns on the same length")],
      },
    ];
  },
});
