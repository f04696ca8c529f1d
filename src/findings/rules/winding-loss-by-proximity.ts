import { windingOfLength } from "../moves.ts";
import { byHand, defineRule } from "../rule.ts";
import { number, ohms } from "../words.ts";

const most = 5;

export const windingLossByProximity = defineRule({
  id: "winding-loss-by-proximity",
  room: "resonance",
  says: "The field of the neighbouring turns drives most of the loss: thick wire wound close.",
  source: "proximity-orthogonality",
  needs: ["secondary.resistanceAc", "secondary.resistanceDc"],
  judge(context) {
    const ac = context.value("secondary.resistanceAc");
    const dc = context.value("secondary.resistanceDc");
    if (ac / dc <= most) return [];
    const path = "secondary.wire";
    return [
      {
        severity: "look",
        path,
        what: `at f1 the winding has ${ohms(ac)}, ${number(ac / dc)} times its ${ohms(dc)} to direct current`,
        expected: `less than ${most} times`,
        remedies: [byHand("use thinner wire"), windingOfLength(context, 1.25 * context.coil.secondary.length)],
      },
    ];
  },
});
