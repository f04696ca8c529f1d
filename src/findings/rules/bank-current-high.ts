import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { amperes } from "../words.ts";

/** Effective current [A] that leads and end contacts of a usual film capacitor carry. From memory. */
const lines = { look: 8, fix: 20 };

export const bankCurrentHigh = defineRule({
  id: "bank-current-high",
  room: "burst",
  says: "The end contact of a film capacitor is the first thing that burns; its effective current is what heats it.",
  source: "film-capacitor-practice",
  needs: ["bank.currentEach"],
  judge(context) {
    const bank = context.coil.tank?.bank;
    const found = greatest(context, "bank.currentEach");
    if (bank === undefined || found === undefined) return [];
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, lines);
    if (severity === undefined) return [];
    const times = Math.ceil(most / lines.look);
    return [
      {
        severity,
        path: "tank.bank.parallel",
        what: `each capacitor carries ${amperes(most)} effective ${found.basis}`,
        expected: `at most ${amperes(lines.look)}, or what the data sheet gives at this frequency`,
        evidence: [...found.evidence, "interrupter.rate"],
        remedies: [
          setting(
            { path: "tank.bank.parallel", value: String(bank.parallel * times) },
            { path: "tank.bank.series", value: String(bank.series * times) },
          ),
          ...burstsThinned(context, (lines.look / most) ** 2),
          byHand("use capacitors with wide or screwed contacts"),
        ],
      },
    ];
  },
});
