import { windingOfLength } from "../moves.ts";
import { byHand, defineRule } from "../rule.ts";
import { length, number } from "../words.ts";

const least = 2.5;

export const windingStocky = defineRule({
  id: "winding-stocky",
  room: "shape",
  says: "A winding short for its diameter leaves little height between the top's voltage and the primary: it flashes over along itself or to the primary.",
  source: "common-practice",
  judge(context) {
    const { length: long, former } = context.coil.secondary;
    const ratio = long / former.outerDiameter;
    if (ratio >= least) return [];
    const path = "secondary.length";
    return [
      {
        severity: "look",
        path,
        what: `the winding is ${length(long)} long on ${length(former.outerDiameter)}, ${number(ratio)} times its diameter`,
        expected: `${least} to 6.5 times the diameter`,
        evidence: ["secondary.former.outerDiameter"],
        remedies: [windingOfLength(context, least * former.outerDiameter), byHand("use a thinner former")],
      },
    ];
  },
});
