import { topVoltage } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";

export const voltageNotBounded = defineRule({
  id: "voltage-not-bounded",
  room: "burst",
  says: "Where nothing bounds the tank's current, no stress, reach or clearance can be judged.",
  source: "bank-energy-bound",
  needs: ["secondary.energyCapacitance"],
  judge(context) {
    if (topVoltage(context) !== undefined) return [];
    const { primary, tank, feedback } = context.coil;
    const missing =
      primary === undefined || tank === undefined
        ? "primary and tank"
        : "an overcurrent setting, or bridge, supply and interrupter";
    return [
      {
        severity: "look",
        path: feedback ? "feedback" : tank ? "tank" : "secondary",
        what: `the file does not say what bounds the voltage, so stress along the winding, reach and clearances are not judged`,
        expected: `${missing} in the file`,
        remedies: [byHand(`add ${missing}`)],
      },
    ];
  },
});
