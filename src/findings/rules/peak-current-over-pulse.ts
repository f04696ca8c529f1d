import { burstsShortened, driveTimeBelow } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

/** Part of the pulse rating up to which a burst is planned. */
const planned = 0.9;

export const peakCurrentOverPulse = defineRule({
  id: "peak-current-over-pulse",
  room: "driver",
  says: "Above its pulse rating a switch leaves saturation or melts its bond wires, and the other side shorts the bus.",
  source: "common-practice",
  needs: ["burst.peakPrimaryCurrent"],
  judge(context) {
    const { bridge, feedback } = context.coil;
    const found = greatest(context, "burst.peakPrimaryCurrent");
    if (bridge === undefined || found === undefined) return [];
    const { pulse } = bridge.switch;
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, { look: planned * pulse, fix: pulse, stop: 1.5 * pulse });
    if (severity === undefined) return [];
    const trip = feedback?.overcurrent;
    return [
      {
        severity,
        path: "bridge.switch.pulse",
        what: `the primary current peaks at ${amperes(most)} ${found.basis}; the switch's pulse rating is ${amperes(pulse)}`,
        expected: `at most ${amperes(planned * pulse)}, nine tenths of the rating`,
        evidence: found.evidence,
        remedies: [
          ...(feedback
            ? [
                setTo(context, {
                  path: "feedback.overcurrent",
                  // What flows on after the trip is taken off where it has been seen.
                  value: planned * pulse * (trip !== undefined && trip < most ? trip / most : 0.9),
                  dimension: "current",
                  digits: 2,
                  toward: "down",
                }),
              ]
            : []),
          ...burstsShortened(context, driveTimeBelow(found.study, planned * pulse)),
          byHand("use switches of a higher pulse rating, or a tank of higher impedance"),
        ],
      },
    ];
  },
});
