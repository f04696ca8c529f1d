import { primaryMovedFor } from "../coupling-height.ts";
import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

/** Above the first the trade expects flashover to the primary with care, above the second without. */
const look = 0.2;
const fix = 0.26;

export const couplingHigh = defineRule({
  id: "coupling-high",
  room: "resonance",
  says: "A primary coupled too closely raises the voltage low on the winding and flashes over to it.",
  source: "common-practice",
  needs: ["coupling.k", "coupling.kMode1"],
  judge(context) {
    const k = context.value("coupling.k");
    if (k <= look) return [];
    const lowered = primaryMovedFor(context, { ratio: (0.9 * look) / k });
    return [
      {
        severity: k > fix ? "fix" : "look",
        path: "primary.baseHeight",
        what: `primary and secondary couple with k = ${number(k)} (${number(context.value("coupling.kMode1"))} with mode 1's current)`,
        expected: `at most ${look} for a spiral or a helix; 0.12 to 0.18 is usual`,
        evidence: ["primary.firstTurnDiameter", "secondary.baseHeight"],
        remedies: [...(lowered ? [lowered] : []), byHand("use a wider first turn")],
      },
    ];
  },
});
