import { defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { seconds } from "../words.ts";

export const deadTimeMissing = defineRule({
  id: "dead-time-missing",
  room: "driver",
  says: "Without a pause between one side off and the other on, both conduct for a moment and short the bus through themselves.",
  source: "gate-drive-practice",
  needs: ["gate.riseTime"],
  judge(context) {
    const { bridge } = context.coil;
    if (bridge === undefined || bridge.deadTime !== undefined) return [];
    const rise = context.value("gate.riseTime");
    const path = "bridge.deadTime";
    return [
      {
        severity: "look",
        path,
        what: `the file has no dead time, and a gate takes ${seconds(rise)} to change`,
        expected:
          "deadTime: between one switch off and the other on, measured at the gates; 0 ns where it is known to be none",
        remedies: [setTo(context, { path, value: 2 * rise, dimension: "time", digits: 2, toward: "up" })],
      },
    ];
  },
});
