import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { celsius } from "../words.ts";

const celsiusZero = 273.15;
/** Case temperature [°C]: a burn at a touch, and the end of grease, plastic and capacitors beside it. Common practice, no source. */
const lines = { look: 70, fix: 100 };

export const heatsinkHot = defineRule({
  id: "heatsink-hot",
  room: "driver",
  says: "A heatsink that hot burns who touches it, and cooks the bus capacitors beside it.",
  source: "common-practice",
  needs: ["switch.case"],
  judge(context) {
    const { bridge } = context.coil;
    const found = greatest(context, "switch.case");
    if (bridge === undefined || found === undefined) return [];
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, lines);
    if (severity === undefined) return [];
    const ambient = bridge.heatsink.ambient - celsiusZero;
    return [
      {
        severity,
        path: "bridge.heatsink.thermal",
        what: `the case stands at ${celsius(most)} ${found.basis}`,
        expected: `at most ${celsius(lines.look)}`,
        evidence: [...found.evidence, "switch.meanPower", "bridge.heatsink.ambient"],
        remedies: [
          ...burstsThinned(context, (lines.look - ambient) / (most - ambient)),
          byHand("use a larger heatsink, or move air over it"),
        ],
      },
    ];
  },
});
