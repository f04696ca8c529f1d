import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { volts, watts } from "../words.ts";

/** Heat [W] of one bleeder: a large wire-wound part, and one that needs a heatsink. Common practice, no source. */
const lines = { look: 8, fix: 25 };

export const bleederHot = defineRule({
  id: "bleeder-hot",
  room: "driver",
  says: "A bleeder that runs too hot drifts, unsolders itself, and then discharges nothing.",
  source: "common-practice",
  needs: ["bus.bleederPower", "bus.voltageEach"],
  judge(context) {
    const bleeder = context.coil.supply?.capacitors.bleeder;
    const power = context.value("bus.bleederPower");
    const severity = graded({ now: power }, lines);
    if (severity === undefined || bleeder === undefined) return [];
    const path = "supply.capacitors.bleeder";
    return [
      {
        severity,
        path,
        what: `each bleeder takes ${watts(power)} at ${volts(context.value("bus.voltageEach"))}, as long as the bus is charged`,
        expected: `at most ${watts(lines.look)}, in a part rated for twice that`,
        remedies: [
          setTo(context, {
            path,
            value: (bleeder * power) / (0.9 * lines.look),
            dimension: "resistance",
            digits: 2,
            toward: "up",
          }),
          byHand("share it between several resistors in free air, or switch it by a relay"),
        ],
      },
    ];
  },
});
