import { byHand, defineRule } from "../rule.ts";
import { percent, roughVolts, seconds } from "../words.ts";

/** Part of the driven time by which the top should have broken out. */
const half = 0.5;

export const breakoutLate = defineRule({
  id: "breakout-late",
  room: "burst",
  says: "A streamer that begins in the second half of the burst gets little of its energy, and a little dust or damp decides whether it comes at all.",
  source: "common-practice",
  needs: ["burst.breakoutTime", "burst.driveTime"],
  judge({ value, study }) {
    const [out, driven] = [value("burst.breakoutTime"), value("burst.driveTime")];
    if (out <= half * driven) return [];
    return [
      {
        severity: "look",
        path: "topload",
        what:
          out > driven
            ? `the top breaks out after ${seconds(out)}, when the drive has ended at ${seconds(driven)}`
            : `the top breaks out after ${seconds(out)}, ${percent(out / driven)} of the ${seconds(driven)} that are driven`,
        expected: `breakout by ${seconds(half * driven)}${study ? `; the top breaks out at ${roughVolts(study.setting.breakoutVoltage)}` : ""}`,
        evidence: ["topload.breakoutVoltage"],
        remedies: [
          byHand("fit a breakout point, or use a smaller top load"),
          byHand("make the burst longer, or the bus higher, within what switches and bank hold"),
        ],
      },
    ];
  },
});
