import { topVoltage } from "../estimates.ts";
import { paschenMinimum } from "../laws/turn-insulation.ts";
import { byHand, defineRule } from "../rule.ts";
import { volts } from "../words.ts";

export const coatingTrapsAir = defineRule({
  id: "coating-traps-air",
  room: "burst",
  says: "A film of air left under a coat takes most of the stress and discharges where nobody can see it.",
  source: "paschen",
  needs: ["winding.turnVoltagePerVolt"],
  judge(context) {
    const voltage = topVoltage(context);
    const { coating } = context.coil.secondary;
    if (voltage === undefined || coating === undefined) return [];
    const turn = context.value("winding.turnVoltagePerVolt") * voltage.high;
    if (turn < paschenMinimum) return [];
    return [
      {
        severity: "look",
        path: "secondary.coating",
        what: `up to ${volts(turn)} peak between turns can discharge in any film of air that the ${coating.material} leaves in the grooves`,
        expected: `less than ${volts(paschenMinimum)} peak, the least voltage that breaks down any gap of air, or a coat without voids`,
        evidence: voltage.evidence,
        remedies: [
          byHand("lay the first coat thin and slow so that it wets the grooves, or draw the air out before it sets"),
          byHand("use more turns of thinner wire on the same length"),
        ],
      },
    ];
  },
});
