import { topVoltage } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { roughVolts } from "../words.ts";

export const breakoutOutOfReach = defineRule({
  id: "breakout-out-of-reach",
  room: "burst",
  says: "A coil that cannot break out keeps its energy: voltage rises until the winding or the primary finds a way.",
  source: "bank-energy-bound",
  needs: ["topload.breakoutVoltage", "tank.inductance", "secondary.energyCapacitance"],
  judge(context) {
    const voltage = topVoltage(context);
    const breakout = context.solution?.figures.get("topload.breakoutVoltage");
    const earliest = breakout?.low ?? breakout?.value ?? 0;
    if (voltage === undefined || earliest <= voltage.high) return [];
    return [
      {
        severity: "look",
        path: "topload",
        what: `the smooth top load breaks out at ${roughVolts(earliest)} or above, more than ${voltage.said}`,
        expected: `a breakout below ${roughVolts(voltage.high)}`,
        evidence: voltage.evidence,
        remedies: [
          byHand("fit a breakout point: a blunt rod of a few millimetres that stands out by a tube's diameter"),
          byHand("use a smaller top load, or one of thinner tube"),
        ],
      },
    ];
  },
});
