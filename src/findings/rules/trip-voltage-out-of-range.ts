import { defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes, volts } from "../words.ts";

/** Voltage on the burden at the trip [V]: above offset and switching noise, below the rail of a comparator. Common practice, no source. */
const range = { least: 0.25, most: 4.5 };

export const tripVoltageOutOfRange = defineRule({
  id: "trip-voltage-out-of-range",
  room: "driver",
  says: "A trip of a few tens of millivolts drowns in the bridge's noise; one above the comparator's rail never comes.",
  source: "current-transformer",
  needs: ["feedback.tripVoltage"],
  judge(context) {
    const { feedback } = context.coil;
    const trip = context.value("feedback.tripVoltage");
    if (feedback?.transformer === undefined || feedback.sense === "secondaryCurrent") return [];
    if (trip >= range.least && trip <= range.most) return [];
    const path = "feedback.transformer.burden";
    return [
      {
        severity: trip > range.most ? "fix" : "look",
        path,
        what: `at the trip of ${amperes(feedback.overcurrent ?? 0)} the burden shows ${volts(trip)}`,
        expected: `${volts(range.least)} to ${volts(range.most)}, which a comparator on 5 V can tell; another divider between burden and comparator does as well`,
        evidence: ["feedback.overcurrent", "feedback.transformer.ratio"],
        remedies: [
          setTo(context, { path, value: feedback.transformer.burden / trip, dimension: "resistance", digits: 2 }),
        ],
      },
    ];
  },
});
