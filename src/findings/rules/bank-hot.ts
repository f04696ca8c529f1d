import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { number, watts } from "../words.ts";

/** Heat [W] of one capacitor that warms a body of a few centimetres by about 20 K and 80 K. From memory. */
const lines = { look: 1, fix: 4 };

export const bankHot = defineRule({
  id: "bank-hot",
  room: "burst",
  says: "Polypropylene loses its strength a few tens of kelvins above the room; the heat is made inside, where nobody feels it.",
  source: "film-capacitor-practice",
  needs: ["bank.heatEach"],
  judge(context) {
    const bank = context.coil.tank?.bank;
    const found = greatest(context, "bank.heatEach");
    if (bank === undefined || found === undefined) return [];
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, lines);
    if (severity === undefined) return [];
    const times = Math.ceil(Math.sqrt(most / lines.look));
    return [
      {
        severity,
        path: "tank.bank.dissipation",
        what: `${watts(most)} are lost in each capacitor ${found.basis}, at a dissipation of ${number(bank.dissipation ?? 0)}`,
        expected: `at most ${watts(lines.look)} in each`,
        evidence: [...found.evidence, "interrupter.rate"],
        remedies: [
          setting(
            { path: "tank.bank.parallel", value: String(bank.parallel * times) },
            { path: "tank.bank.series", value: String(bank.series * times) },
          ),
          ...burstsThinned(context, lines.look / most),
          byHand("use polypropylene; polyester loses ten times as much"),
        ],
      },
    ];
  },
});
