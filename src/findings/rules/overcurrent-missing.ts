import { byHand, defineRule, setting } from "../rule.ts";
import { quantityText } from "../words.ts";

export const overcurrentMissing = defineRule({
  id: "overcurrent-missing",
  room: "driver",
  says: "Without an overcurrent setting only the length of the burst bounds current, voltage and reach.",
  source: "common-practice",
  judge(context) {
    const { bridge, feedback, tank } = context.coil;
    if (tank === undefined || bridge === undefined || feedback?.overcurrent !== undefined) return [];
    const path = "feedback.overcurrent";
    return [
      {
        severity: "fix",
        path: feedback ? path : "feedback",
        what: "no overcurrent setting ends a burst",
        expected: "overcurrent: a peak current below the pulse rating of the switch",
        evidence: ["bridge.switch.pulse"],
        remedies: [
          ...(feedback
            ? [
                setting({
                  path,
                  value: quantityText(context, {
                    path,
                    value: 0.75 * bridge.switch.pulse,
                    dimension: "current",
                    digits: 2,
                    toward: "down",
                  }),
                }),
              ]
            : []),
          byHand("fit a current transformer and a comparator that end the burst"),
        ],
      },
    ];
  },
});
