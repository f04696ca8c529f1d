import { burstsThinned } from "../bursts.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { celsius } from "../words.ts";

const celsiusZero = 273.15;
/** Kelvins that losses at temperature and contact to the heatsink easily make. Common practice, no source. */
const near = 15;

export const junctionNearLimit = defineRule({
  id: "junction-near-limit",
  room: "driver",
  says: "Losses rise as a switch warms and no contact to a heatsink is as good as planned; the last kelvins are soon gone.",
  source: "foster-network",
  needs: ["switch.junctionPeak"],
  judge(context) {
    const { bridge } = context.coil;
    const found = greatest(context, "switch.junctionPeak", "high");
    if (bridge === undefined || found === undefined) return [];
    const limit = bridge.switch.junctionMax - celsiusZero;
    const high = found.most.high ?? found.most.value;
    // Above the limit the other rule speaks.
    if (high <= limit - near || Math.max(found.most.value, found.now.value) > limit) return [];
    const ambient = bridge.heatsink.ambient - celsiusZero;
    return [
      {
        severity: "look",
        path: "bridge.switch.junctionMax",
        what: `the junction may peak at ${celsius(high)} ${found.basis}, within ${near} K of its limit of ${celsius(limit)} or above it`,
        expected: `at most ${celsius(limit - near)} at the upper end of its interval`,
        evidence: [...found.evidence, "bridge.heatsink"],
        remedies: [
          ...burstsThinned(context, (limit - near - 5 - ambient) / (high - ambient)),
          byHand("use a better heatsink, or larger switches"),
        ],
      },
    ];
  },
});
