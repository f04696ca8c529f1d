import { byHand, defineRule, setting } from "../rule.ts";
import { length, number, quantityText } from "../words.ts";

const most = 6.5;

export const windingSlender = defineRule({
  id: "winding-slender",
  room: "shape",
  says: "A winding long for its diameter couples weakly to the primary and spends wire on resistance.",
  source: "common-practice",
  judge(context) {
    const { length: long, former } = context.coil.secondary;
    const ratio = long / former.outerDiameter;
    if (ratio <= most) return [];
    const path = "secondary.length";
    return [
      {
        severity: "look",
        path,
        what: `the winding is ${length(long)} long on ${length(former.outerDiameter)}, ${number(ratio)} times its diameter`,
        expected: `2.5 to ${most} times the diameter`,
        evidence: ["secondary.former.outerDiameter"],
        remedies: [
          byHand("use a wider former, or fewer turns and a shorter winding"),
          setting({
            path: "secondary.former.outerDiameter",
            value: quantityText(context, {
              path: "secondary.former.outerDiameter",
              value: long / most,
              dimension: "length",
              toward: "up",
            }),
          }),
        ],
      },
    ];
  },
});
