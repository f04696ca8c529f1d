import { topVoltage } from "../estimates.ts";
import { windingOfLength } from "../moves.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { field, quantityText } from "../words.ts";

/** Axial field [V/m peak] worth a look, and that at which streamers run along the winding. Source: common-practice, streamer-gradient. */
const look = 3e5;
const stop = 5e5;
/** How many times as long a winding is still worth proposing. */
const longest = 1.5;

export const windingStressAlong = defineRule({
  id: "winding-stress-along",
  room: "burst",
  says: "Above the field in which streamers propagate, an arc runs along the winding, burns its enamel and ends it.",
  source: "streamer-gradient",
  needs: ["winding.peakFieldPerVolt"],
  judge(context) {
    const voltage = topVoltage(context);
    if (voltage === undefined) return [];
    const perVolt = context.value("winding.peakFieldPerVolt");
    const worst = perVolt * voltage.high;
    if (worst < look) return [];
    const { length: long } = context.coil.secondary;
    const trip = context.coil.feedback?.overcurrent;
    const tripLimits = trip !== undefined && voltage.evidence.includes("feedback.overcurrent");
    return [
      {
        severity: perVolt * voltage.middle >= stop ? "stop" : worst >= stop ? "fix" : "look",
        path: "secondary.length",
        what: voltage.computed
          ? `up to ${field(worst)} stand along the winding ${voltage.basis}`
          : `${field(perVolt * voltage.low)} to ${field(worst)} stand along the winding at a third to all of ${voltage.said}`,
        expected: `less than ${field(look)}; from ${field(stop)} streamers run along it`,
        evidence: voltage.evidence,
        remedies: [
          ...(tripLimits
            ? [
                setting({
                  path: "feedback.overcurrent",
                  value: quantityText(context, {
                    path: "feedback.overcurrent",
                    value: (0.98 * trip * look) / worst,
                    dimension: "current",
                    digits: 2,
                    toward: "down",
                  }),
                }),
              ]
            : []),
          ...(worst < longest * look ? [windingOfLength(context, (1.05 * long * worst) / look)] : []),
          byHand("use a wider top load, which evens out the field along the winding"),
        ],
      },
    ];
  },
});
