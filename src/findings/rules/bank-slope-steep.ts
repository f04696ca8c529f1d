import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { amperes, number } from "../words.ts";

/** dV/dt [V/s] that a metallised film capacitor for pulses stands, and a foil one. From memory. */
const lines = { look: 3e9, fix: 10e9 };
const perMicrosecond = (slope: number) => `${number(slope / 1e6)} V/µs`;

export const bankSlopeSteep = defineRule({
  id: "bank-slope-steep",
  room: "burst",
  says: "dV/dt times capacitance is the peak current through the end contact; above its rating the contact lets go pulse by pulse.",
  source: "film-capacitor-practice",
  needs: ["bank.slope"],
  judge(context) {
    const bank = context.coil.tank?.bank;
    const found = greatest(context, "bank.slope");
    if (bank === undefined || found === undefined) return [];
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, lines);
    if (severity === undefined) return [];
    const times = Math.ceil(most / lines.look);
    const peak = context.valueIfKnown("bank.peakCurrentEach");
    return [
      {
        severity,
        path: "tank.bank.each",
        what: `the voltage of each capacitor changes by up to ${perMicrosecond(most)} ${found.basis}${peak === undefined ? "" : `, ${amperes(peak)} through its contacts`}`,
        expected: `at most ${perMicrosecond(lines.look)} for metallised film, or what the data sheet gives`,
        evidence: [...found.evidence, "bank.peakCurrentEach"],
        remedies: [
          setting(
            { path: "tank.bank.parallel", value: String(bank.parallel * times) },
            { path: "tank.bank.series", value: String(bank.series * times) },
          ),
          byHand("use foil capacitors, or double-sided metallised ones for pulses"),
        ],
      },
    ];
  },
});
