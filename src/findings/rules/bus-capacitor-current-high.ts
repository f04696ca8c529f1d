import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { amperes } from "../words.ts";

/** Effective current [A] of a usual electrolytic capacitor of some hundred volts: 0.045 A × (µF)^0.7, radio frequency counted. From memory. */
const usual = (capacitance: number) => 0.045 * (capacitance * 1e6) ** 0.7;
const lines = { look: 1, fix: 2.5 };

export const busCapacitorCurrentHigh = defineRule({
  id: "bus-capacitor-current-high",
  room: "driver",
  says: "Ripple current warms an electrolytic capacitor from inside; ten kelvins halve its life.",
  source: "electrolytic-practice",
  needs: ["bus.capacitorCurrent"],
  judge(context) {
    const { supply } = context.coil;
    const found = greatest(context, "bus.capacitorCurrent");
    if (supply === undefined || found === undefined) return [];
    const { each, parallel } = supply.capacitors;
    const rated = usual(each);
    const most = found.most.value;
    const severity = graded({ now: found.now.value / rated, most: most / rated }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "supply.capacitors.parallel",
        what: `each bus capacitor carries ${amperes(most)} effective ${found.basis}; one of its size usually stands about ${amperes(rated)}`,
        expected: `at most ${amperes(rated)}, or the ripple current of its data sheet`,
        evidence: [...found.evidence, "supply.capacitors.each"],
        remedies: [
          setting({ path: "supply.capacitors.parallel", value: String(Math.ceil((parallel * most) / rated)) }),
          byHand("put film capacitors beside the bridge, which take the burst's current"),
        ],
      },
    ];
  },
});
