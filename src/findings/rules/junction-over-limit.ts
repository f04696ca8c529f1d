import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { celsius, watts } from "../words.ts";

const celsiusZero = 273.15;
/** Kelvins above the limit from which the switch is likely to fail at once. Common practice, no source. */
const atOnce = 50;
/** Kelvins below the limit that a remedy leaves. */
const margin = 20;

export const junctionOverLimit = defineRule({
  id: "junction-over-limit",
  room: "driver",
  says: "A junction above its limit ages in hours or fails at once, and a failed switch shorts the bus.",
  source: "foster-network",
  needs: ["switch.junctionPeak", "switch.junctionMean"],
  judge(context) {
    const { bridge } = context.coil;
    const found = greatest(context, "switch.junctionPeak");
    if (bridge === undefined || found === undefined) return [];
    const limit = bridge.switch.junctionMax - celsiusZero;
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, { look: limit, fix: limit, stop: limit + atOnce });
    if (severity === undefined) return [];
    const ambient = bridge.heatsink.ambient - celsiusZero;
    const mean = found.study.figures.get("switch.junctionMean")?.value ?? most;
    const power = found.study.figures.get("switch.meanPower")?.value;
    return [
      {
        severity,
        path: "bridge.switch.junctionMax",
        what: `the junction peaks at ${celsius(most)} and stands at ${celsius(mean)} in the mean ${found.basis}${power === undefined ? "" : `, with ${watts(power)} in each switch`}; its limit is ${celsius(limit)}`,
        expected: `at most ${celsius(limit - margin)}`,
        evidence: [...found.evidence, "switch.meanPower", "bridge.heatsink"],
        remedies: [
          ...burstsThinned(context, (limit - margin - ambient) / (most - ambient)),
          byHand(
            mean - ambient > 0.5 * (most - ambient)
              ? "use a better heatsink, or switches of lower loss: most of the rise is there in the mean"
              : "shorten the burst, or use larger switches: most of the rise comes within one burst",
          ),
        ],
      },
    ];
  },
});
