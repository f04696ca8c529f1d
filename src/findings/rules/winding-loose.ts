import { windingOfLength } from "../moves.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, percent } from "../words.ts";

const loose = 0.8;

export const windingLoose = defineRule({
  id: "winding-loose",
  room: "shape",
  says: "Turns with air between them need a thread or a spacer to stay there, or the file has a slip in it.",
  source: "common-practice",
  judge(context) {
    const { turns, length: long, wire } = context.coil.secondary;
    const fill = (turns * wire.overall) / long;
    if (fill >= loose) return [];
    const path = "secondary.turns";
    const closeWound = Math.floor((0.97 * long) / wire.overall);
    return [
      {
        severity: "look",
        path,
        what: `${turns} turns of ${length(wire.overall)} wire fill ${percent(fill)} of the ${length(long)} winding and leave ${length(long / turns - wire.overall)} between turns`,
        expected: `about ${closeWound} turns where it is wound close`,
        evidence: ["secondary.length", "secondary.wire.overall"],
        remedies: [
          setting({ path, value: String(closeWound) }),
          windingOfLength(context, (turns * wire.overall) / 0.97),
          byHand("wind with a spacer of that thickness, if the gap is meant"),
        ],
      },
    ];
  },
});
