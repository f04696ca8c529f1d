import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { seconds } from "../words.ts";

/** Dead time over the gate's rise time that keeps both sides apart. Common practice, no source. */
const apart = 1.5;

export const deadTimeShort = defineRule({
  id: "dead-time-short",
  room: "driver",
  says: "Where the dead time is shorter than a gate needs to change, both sides conduct for a moment and short the bus through themselves.",
  source: "gate-drive-practice",
  needs: ["gate.riseTime"],
  judge(context) {
    const deadTime = context.coil.bridge?.deadTime;
    const rise = context.value("gate.riseTime");
    if (deadTime === undefined || deadTime >= apart * rise) return [];
    const path = "bridge.deadTime";
    return [
      {
        severity: deadTime < rise ? "fix" : "look",
        path,
        what: `${seconds(deadTime)} of dead time, and a gate takes about ${seconds(rise)} to change`,
        expected: `${seconds(apart * rise)} or more`,
        evidence: ["bridge.gate"],
        remedies: [
          setTo(context, { path, value: apart * rise, dimension: "time", digits: 2, toward: "up" }),
          byHand("put a diode across the gate resistor, so that a gate goes off faster than on"),
        ],
      },
    ];
  },
});
