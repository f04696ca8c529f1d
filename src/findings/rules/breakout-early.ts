import { topVoltageBound } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { roughVolts } from "../words.ts";

/** Breakout over the lowest estimate of the top voltage. */
const early = 0.5;

export const breakoutEarly = defineRule({
  id: "breakout-early",
  room: "burst",
  says: "A top load that breaks out far below the voltage that the burst can raise grows many short streamers instead of one long one.",
  source: "bank-energy-bound",
  needs: ["topload.breakoutVoltage", "tank.inductance", "secondary.energyCapacitance"],
  judge(context) {
    const voltage = topVoltageBound(context);
    const breakout = context.value("topload.breakoutVoltage");
    if (voltage === undefined || breakout >= early * voltage.low) return [];
    return [
      {
        severity: "look",
        path: "topload",
        what: `the top load breaks out at ${roughVolts(breakout)}; even a third of ${voltage.said} is ${roughVolts(voltage.low)}`,
        expected: `a breakout of ${roughVolts(early * voltage.low)} or more`,
        evidence: voltage.evidence,
        remedies: [byHand("use a larger top load or a thicker tube, and one breakout point on it")],
      },
    ];
  },
});
