import { byHand, defineRule } from "../rule.ts";

const few = 250;

export const turnsFew = defineRule({
  id: "turns-few",
  room: "shape",
  says: "Few turns put a high voltage on each of them and the resonance high, where bridges switch badly.",
  source: "common-practice",
  judge({ coil }) {
    const { turns } = coil.secondary;
    if (turns >= few) return [];
    return [
      {
        severity: "look",
        path: "secondary.turns",
        what: `${turns} turns are few for a winding that a bridge has to drive`,
        expected: `${few} turns or more; 800 to 1600 are usual`,
        remedies: [byHand("use thinner wire and more turns on the same length")],
      },
    ];
  },
});
