import { byHand, defineRule } from "../rule.ts";
import { farads, volts } from "../words.ts";

/** Capacitance [F] and voltage [V] of a charged capacitor that may be touched in a household device, by class. From memory. */
const touchable: readonly (readonly [number, number])[] = [
  [8e-9, 500],
  [28e-9, 200],
  [91e-9, 100],
  [300e-9, 60],
];

export const bankLeftCharged = defineRule({
  id: "bank-left-charged",
  room: "burst",
  says: "A burst that ends leaves the bank charged, and nothing discharges it when the mains is off.",
  source: "iec-62368-1",
  needs: ["bank.voltageLeft", "tank.capacitance"],
  judge({ value }) {
    const [left, capacitance] = [value("bank.voltageLeft"), value("tank.capacitance")];
    const line = lineFor(capacitance);
    if (left <= line) return [];
    return [
      {
        severity: "look",
        path: "tank.bank",
        what: `${volts(left)} are left on the bank of ${farads(capacitance)} when a burst has died away, and no resistor lies across it`,
        expected: `less than ${volts(line)}, the line for a charged capacitor of that size that people can reach, as remembered from IEC 62368-1`,
        remedies: [
          byHand("put a string of resistors of some megohms across the bank, each within its own voltage rating"),
          byHand("short the bank through a resistor before touching primary or tank, and leave the short on"),
        ],
      },
    ];
  },
});

/** Straight lines on logarithmic scales between the rows; the last row's voltage beyond them. */
function lineFor(capacitance: number): number {
  const [first, last] = [touchable[0]!, touchable.at(-1)!];
  if (capacitance <= first[0]) return first[1];
  for (const [index, [size, voltage]] of touchable.entries()) {
    const [below, held] = touchable[index - 1] ?? first;
    if (capacitance > size || index === 0) continue;
    const share = Math.log(capacitance / below) / Math.log(size / below);
    return held * (voltage / held) ** share;
  }
  return last[1];
}
