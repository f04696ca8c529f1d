import { defineRule, setting } from "../rule.ts";
import { amperes, quantityText } from "../words.ts";

export const overcurrentAboveSwitch = defineRule({
  id: "overcurrent-above-switch",
  room: "driver",
  says: "A trip above the switch's pulse rating acts after the switch has failed.",
  source: "common-practice",
  judge(context) {
    const { bridge, feedback } = context.coil;
    if (bridge === undefined || feedback?.overcurrent === undefined) return [];
    const { pulse } = bridge.switch;
    if (feedback.overcurrent <= pulse) return [];
    const path = "feedback.overcurrent";
    return [
      {
        severity: "fix",
        path,
        what: `the trip at ${amperes(feedback.overcurrent)} lies above the switch's pulse rating of ${amperes(pulse)}`,
        expected: `at most ${amperes(pulse)}`,
        evidence: ["bridge.switch.pulse"],
        remedies: [
          setting({
            path,
            value: quantityText(context, { path, value: 0.9 * pulse, dimension: "current", digits: 2, toward: "down" }),
          }),
        ],
      },
    ];
  },
});
