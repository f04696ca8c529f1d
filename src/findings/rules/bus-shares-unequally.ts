import { byHand, defineRule } from "../rule.ts";
import { percent, volts } from "../words.ts";

export const busSharesUnequally = defineRule({
  id: "bus-shares-unequally",
  room: "driver",
  says: "In a string of bus capacitors the smallest takes the most voltage; without a resistor across each, leakage decides.",
  source: "common-practice",
  needs: ["bus.voltageEach"],
  judge({ coil, value, provenance }) {
    const { supply } = coil;
    if (supply === undefined || supply.capacitors.series < 2) return [];
    const { each, series, voltage, bleeder } = supply.capacitors;
    const equal = value("bus.voltageEach");
    const tolerance = (provenance("supply.capacitors.each")?.tolerance ?? 0) / each;
    if (!(tolerance < 1)) return [];
    const smallest = 1 / (1 - tolerance);
    const worst = (equal * series * smallest) / (smallest + (series - 1) / (1 + tolerance));
    const held = bleeder !== undefined;
    if (equal > voltage || (held && worst <= voltage)) return [];
    return [
      {
        severity: worst > voltage ? "fix" : "look",
        path: "supply.capacitors.series",
        what: `of ${series} bus capacitors in series, ±${percent(tolerance)}, one can take ${volts(worst)} as the bus is charged; its rating is ${volts(voltage)}${held ? "" : ", and no resistor lies across each"}`,
        expected: `at most ${volts(voltage)} on each, and a resistor across each`,
        evidence: ["supply.capacitors.each", "supply.capacitors.voltage"],
        remedies: [
          byHand("put an equal resistor across each capacitor, and capacitors of one batch in a string"),
          byHand("put one more in series"),
        ],
      },
    ];
  },
});
