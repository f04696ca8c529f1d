import { greatest } from "../greatest.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { volts } from "../words.ts";

/** Peak over the direct-voltage rating at which film capacitors usually reach their alternating one: √2 × 0.35. From memory. */
const alternating = 0.5;
/** From here on the rule for the rating itself speaks. */
const derated = 0.7;

export const bankAlternatingVoltage = defineRule({
  id: "bank-alternating-voltage",
  room: "burst",
  says: "Film capacitors hold far less alternating voltage than direct; above it discharges in the winding's edges eat the metal.",
  source: "film-capacitor-practice",
  needs: ["bank.voltageEach"],
  judge(context) {
    const bank = context.coil.tank?.bank;
    const found = greatest(context, "bank.voltageEach");
    if (bank?.voltage === undefined || found === undefined) return [];
    const most = found.most.value;
    if (most <= alternating * bank.voltage || most > derated * bank.voltage) return [];
    const series = Math.ceil((most * bank.series) / (alternating * bank.voltage));
    return [
      {
        severity: "look",
        path: "tank.bank.voltage",
        what: `each capacitor takes ${volts(most)} peak ${found.basis}; rated ${volts(bank.voltage)} for direct voltage, it usually holds about ${volts(alternating * bank.voltage)} of alternating peak`,
        expected: `at most ${volts(alternating * bank.voltage)}, or the alternating rating from the data sheet`,
        evidence: [...found.evidence, "tank.bank.series"],
        remedies: [
          setting(
            { path: "tank.bank.series", value: String(series) },
            {
              path: "tank.bank.parallel",
              value: String(Math.max(1, Math.round((bank.parallel * series) / bank.series))),
            },
          ),
          byHand(
            "look up the alternating rating at this frequency in the data sheet; short bursts with long pauses are kinder than its curve",
          ),
        ],
      },
    ];
  },
});
