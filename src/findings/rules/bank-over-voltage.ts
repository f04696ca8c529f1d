import { tankVoltage } from "../estimates.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { quantityText, volts } from "../words.ts";

/** Share of its rating that a film capacitor is run at where the rating is for direct voltage. */
const derated = 0.7;

export const bankOverVoltage = defineRule({
  id: "bank-over-voltage",
  room: "burst",
  says: "Capacitors above their voltage fail short, and the bridge feeds what is left.",
  source: "common-practice",
  judge(context) {
    const bank = context.coil.tank?.bank;
    const tank = tankVoltage(context);
    if (bank?.voltage === undefined || tank === undefined) return [];
    const rating = bank.voltage * bank.series;
    if (tank.high <= derated * rating) return [];
    const series = Math.ceil(tank.high / (derated * bank.voltage));
    const parallel = Math.round((bank.parallel * series) / bank.series);
    const trip = context.coil.feedback?.overcurrent;
    const severity = tank.high > 1.5 * rating ? "stop" : tank.high > rating ? "fix" : "look";
    return [
      {
        severity,
        path: "tank.bank.voltage",
        what: `up to ${volts(tank.high)} peak stand across the bank ${tank.basis}; its capacitors are rated for ${volts(rating)} together`,
        expected: `at most ${volts(derated * rating)}, seven tenths of the rating`,
        evidence: [...tank.evidence, "tank.bank.series"],
        remedies: [
          setting(
            { path: "tank.bank.series", value: String(series) },
            { path: "tank.bank.parallel", value: String(Math.max(1, parallel)) },
          ),
          ...(trip !== undefined && tank.evidence.includes("feedback.overcurrent")
            ? [
                setting({
                  path: "feedback.overcurrent",
                  value: quantityText(context, {
                    path: "feedback.overcurrent",
                    value: (trip * derated * rating) / tank.high,
                    dimension: "current",
                    digits: 2,
                    toward: "down",
                  }),
                }),
              ]
            : []),
          byHand("use capacitors of a higher rating"),
        ],
      },
    ];
  },
});
