import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { ohms, volts } from "../words.ts";

/** Peak [V] on the burden above which clamps conduct and the inputs of a driver are at risk. Common practice, no source. */
const [look, fix] = [10, 40];

export const burdenVoltageHigh = defineRule({
  id: "burden-voltage-high",
  room: "driver",
  says: "A burden voltage far above what logic takes leans on its clamps: they shift the crossing and load the transformer.",
  source: "current-transformer",
  needs: ["feedback.burdenVoltage"],
  judge(context) {
    const transformer = context.coil.feedback?.transformer;
    const peak = context.value("feedback.burdenVoltage");
    if (transformer === undefined || peak <= look) return [];
    const path = "feedback.transformer.burden";
    return [
      {
        severity: peak > fix ? "fix" : "look",
        path,
        what: `the burden of ${ohms(transformer.burden)} peaks at ${volts(peak)}`,
        expected: `at most ${volts(look)}`,
        evidence: ["feedback.transformer.ratio"],
        remedies: [
          setTo(context, {
            path,
            value: (0.7 * transformer.burden * look) / peak,
            dimension: "resistance",
            digits: 2,
            toward: "down",
          }),
          byHand("use a transformer of more turns"),
        ],
      },
    ];
  },
});
