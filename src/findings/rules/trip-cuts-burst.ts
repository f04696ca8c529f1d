import { burstsShortened } from "../bursts.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes, percent, seconds } from "../words.ts";

/** Part of the pulse rating that a trip may stand at. */
const planned = 0.9;

export const tripCutsBurst = defineRule({
  id: "trip-cuts-burst",
  room: "burst",
  says: "An overcurrent setting that ends each burst has become its control: the on-time no longer says how long a burst is, and nothing is left to catch a fault.",
  source: "common-practice",
  needs: ["burst.tripTime"],
  judge(context) {
    const { study, coil } = context;
    const trip = coil.feedback?.overcurrent;
    const tripTime = context.value("burst.tripTime");
    if (study === undefined || trip === undefined || tripTime >= study.setting.onTime) return [];
    const { onTime } = study.setting;
    const pulse = coil.bridge?.switch.pulse ?? 0;
    return [
      {
        severity: "look",
        path: "feedback.overcurrent",
        what: `the current passes ${amperes(trip)} after ${seconds(tripTime)}, so ${percent(1 - tripTime / onTime)} of the on-time of ${seconds(onTime)} is not driven`,
        expected: "an on-time that ends before the trip, or a trip above the current that the burst reaches",
        evidence: ["interrupter.onTime"],
        remedies: [
          ...burstsShortened(context, 0.95 * tripTime),
          ...(trip < 0.8 * planned * pulse
            ? [
                setTo(context, {
                  path: "feedback.overcurrent",
                  value: planned * pulse,
                  dimension: "current",
                  digits: 2,
                  toward: "down",
                }),
              ]
            : []),
          byHand("use a tank of higher impedance: more turns and less capacitance ring up more slowly"),
        ],
      },
    ];
  },
});
