import { primaryMovedFor } from "../coupling-height.ts";
import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

const low = 0.08;

export const couplingLow = defineRule({
  id: "coupling-low",
  room: "resonance",
  says: "A primary coupled too weakly needs more half-cycles than the burst has to hand its energy over.",
  source: "common-practice",
  needs: ["coupling.k"],
  judge(context) {
    const k = context.value("coupling.k");
    if (k >= low) return [];
    const raised = primaryMovedFor(context, { ratio: (1.2 * low) / k });
    return [
      {
        severity: "look",
        path: "primary.baseHeight",
        what: `primary and secondary couple with k = ${number(k)}, which takes about ${number(0.5 / k)} cycles to hand the energy over`,
        expected: `${low} or more; 0.12 to 0.18 is usual`,
        evidence: ["primary.firstTurnDiameter", "secondary.baseHeight"],
        remedies: [
          ...(raised ? [raised] : []),
          byHand("use a narrower first turn, or a cone that leans toward the winding"),
        ],
      },
    ];
  },
});
