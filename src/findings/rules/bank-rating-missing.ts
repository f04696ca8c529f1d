import { tankVoltage } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { volts } from "../words.ts";

export const bankRatingMissing = defineRule({
  id: "bank-rating-missing",
  room: "burst",
  says: "Without the capacitors' rating nobody can say whether the bank holds.",
  source: "common-practice",
  judge(context) {
    const bank = context.coil.tank?.bank;
    if (bank === undefined || bank.voltage !== undefined) return [];
    const tank = tankVoltage(context);
    return [
      {
        severity: "look",
        path: "tank.bank",
        what: `the bank has no voltage rating${tank ? `, and up to ${volts(tank.high)} peak stand across it ${tank.basis}` : ""}`,
        expected: "voltage: the rating of one capacitor, from its data sheet",
        evidence: tank?.evidence ?? [],
        remedies: [byHand("add tank.bank.voltage from the data sheet")],
      },
    ];
  },
});
