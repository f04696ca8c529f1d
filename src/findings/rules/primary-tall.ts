import { primaryExtent } from "../measures.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, percent, quantityText } from "../words.ts";

const most = 1 / 3;

export const primaryTall = defineRule({
  id: "primary-tall",
  room: "shape",
  says: "A helix or cone that climbs high along the winding stands beside turns at a good part of the top's voltage.",
  source: "common-practice",
  judge(context) {
    const { primary, secondary } = context.coil;
    if (primary === undefined) return [];
    const above = primaryExtent(primary).topZ - secondary.baseHeight;
    if (primary.baseHeight > secondary.baseHeight + 0.1 * secondary.length || above <= most * secondary.length)
      return [];
    const path = "primary.baseHeight";
    return [
      {
        severity: "fix",
        path,
        what: `the primary's last turn stands ${length(above)} above the winding's base, ${percent(above / secondary.length)} of its length`,
        expected: `at most a third of the winding's length, ${length(most * secondary.length)}`,
        evidence: ["secondary.length", "primary.turns", "primary.pitch", "primary.angle"],
        remedies: [
          setting({
            path,
            value: quantityText(context, {
              path,
              value: primary.baseHeight - (above - 0.98 * most * secondary.length),
              dimension: "length",
              toward: "down",
            }),
          }),
          byHand("use fewer turns, a smaller pitch, or a flatter angle"),
        ],
      },
    ];
  },
});
