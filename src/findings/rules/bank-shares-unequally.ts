import { tankVoltage } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { percent, volts } from "../words.ts";

export const bankSharesUnequally = defineRule({
  id: "bank-shares-unequally",
  room: "burst",
  says: "In a string the smallest capacitor takes the most voltage; tolerances can put it above its rating while the sum looks well.",
  source: "common-practice",
  judge(context) {
    const bank = context.coil.tank?.bank;
    const tank = tankVoltage(context);
    if (bank?.voltage === undefined || tank === undefined || bank.series < 2) return [];
    const tolerance = (context.provenance("tank.bank.each")?.tolerance ?? 0) / bank.each;
    if (!(tolerance > 0 && tolerance < 1)) return [];
    const smallest = 1 / (1 - tolerance);
    const others = (bank.series - 1) / (1 + tolerance);
    const worst = (tank.high * smallest) / (smallest + others);
    if (worst <= bank.voltage || tank.high > bank.voltage * bank.series) return [];
    return [
      {
        severity: "fix",
        path: "tank.bank.series",
        what: `with capacitors ±${percent(tolerance)} one of ${bank.series} in series can take ${volts(worst)} of the ${volts(tank.high)}, above its ${volts(bank.voltage)}`,
        expected: `at most ${volts(bank.voltage)} on each`,
        evidence: [...tank.evidence, "tank.bank.each", "tank.bank.voltage"],
        remedies: [
          byHand("measure the capacitors and put equal ones in series, or parallel strings joined at every level"),
          byHand("put one more in series"),
        ],
      },
    ];
  },
});
