import { defineRule, setting } from "../rule.ts";
import { length, percent, quantityText } from "../words.ts";

const look = 0.03;
const fix = 0.1;

export const primaryAboveBase = defineRule({
  id: "primary-above-base",
  room: "shape",
  says: "A first turn above the winding's base faces turns that already carry voltage.",
  source: "common-practice",
  judge(context) {
    const { primary, secondary } = context.coil;
    if (primary === undefined) return [];
    const above = primary.baseHeight - secondary.baseHeight;
    const share = above / secondary.length;
    if (share <= look) return [];
    const path = "primary.baseHeight";
    return [
      {
        severity: share > fix ? "fix" : "look",
        path,
        what: `the first turn of the primary stands ${length(above)} above the winding's lowest turn, ${percent(share)} of its length`,
        expected: `at most ${percent(look)} of the winding's length above its lowest turn`,
        evidence: ["secondary.baseHeight", "secondary.length"],
        remedies: [
          setting({
            path,
            value: quantityText(context, {
              path,
              value: secondary.baseHeight,
              dimension: "length",
              digits: 4,
            }),
          }),
        ],
      },
    ];
  },
});
