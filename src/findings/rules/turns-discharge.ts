import { topVoltage } from "../estimates.ts";
import { enamelBreakdown, partialDischargeInception } from "../laws/turn-insulation.ts";
import { byHand, defineRule } from "../rule.ts";
import { length, volts } from "../words.ts";

export const turnsDischarge = defineRule({
  id: "turns-discharge",
  room: "burst",
  says: "Discharges in the air between neighbouring turns eat the enamel; above its breakdown voltage it fails at once.",
  source: "partial-discharge-inception",
  needs: ["winding.turnVoltagePerVolt"],
  judge(context) {
    const voltage = topVoltage(context);
    const { wire, turns, length: long } = context.coil.secondary;
    if (voltage === undefined || wire.overall <= wire.bare) return [];
    const turn = context.value("winding.turnVoltagePerVolt") * voltage.high;
    const inception = partialDischargeInception(wire);
    // Turns that stand apart have air and not enamel between them; the rule for stress along the winding judges those.
    if (turn < inception || long / turns > 1.2 * wire.overall) return [];
    return [
      {
        severity: turn >= enamelBreakdown ? "stop" : "fix",
        path: "secondary.turns",
        what: `up to ${volts(turn)} peak stand between neighbouring turns ${voltage.basis}`,
        expected: `less than ${volts(inception)} peak, where the air beside ${length((wire.overall - wire.bare) / 2)} of enamel starts to discharge; enamel breaks down near ${volts(enamelBreakdown)}`,
        evidence: [...voltage.evidence, "secondary.wire.bare", "secondary.wire.overall"],
        remedies: [
          byHand("use more turns of thinner wire on the same length"),
          byHand("use wire with a thicker build of enamel"),
          byHand("lower the overcurrent setting"),
        ],
      },
    ];
  },
});
