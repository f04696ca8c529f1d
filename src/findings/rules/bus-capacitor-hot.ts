import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { ohms, watts } from "../words.ts";

/** Heat [W] in one can that warms it by about 10 K and 30 K. From memory. */
const lines = { look: 3, fix: 10 };

export const busCapacitorHot = defineRule({
  id: "bus-capacitor-hot",
  room: "driver",
  says: "A bus capacitor dries out at a rate that doubles with each ten kelvins of its own heat.",
  source: "electrolytic-practice",
  needs: ["bus.capacitorHeat"],
  judge(context) {
    const { supply } = context.coil;
    const found = greatest(context, "bus.capacitorHeat");
    if (supply === undefined || found === undefined) return [];
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "supply.capacitors.esr",
        what: `${watts(most)} are lost in the ${ohms(supply.capacitors.esr)} of each bus capacitor ${found.basis}`,
        expected: `at most ${watts(lines.look)} in each`,
        evidence: [...found.evidence, "bus.capacitorCurrent"],
        remedies: [
          byHand("use more capacitors side by side, or ones of lower series resistance"),
          byHand("put film capacitors beside the bridge, which take the burst's current"),
        ],
      },
    ];
  },
});
