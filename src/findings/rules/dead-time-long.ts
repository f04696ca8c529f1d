import { graded } from "../graded.ts";
import { defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { percent, seconds } from "../words.ts";

/** Dead time as a part of the half-cycle. Common practice, no source. */
const lines = { look: 0.15, fix: 0.3 };

export const deadTimeLong = defineRule({
  id: "dead-time-long",
  room: "driver",
  says: "In the dead time the current takes its own way through the diodes; too long, and the next switch goes on into one that conducts.",
  source: "gate-drive-practice",
  needs: ["poles.lower"],
  judge(context) {
    const deadTime = context.coil.bridge?.deadTime;
    if (deadTime === undefined) return [];
    const half = context.valueIfKnown("control.link.halfCycle") ?? 1 / (2 * context.value("poles.lower"));
    const severity = graded({ now: deadTime / half }, lines);
    if (severity === undefined) return [];
    const path = "bridge.deadTime";
    const rise = context.valueIfKnown("gate.riseTime") ?? 0;
    return [
      {
        severity,
        path,
        what: `${seconds(deadTime)} of dead time are ${percent(deadTime / half)} of a half-cycle`,
        expected: `at most ${percent(lines.look)}, ${seconds(lines.look * half)}`,
        evidence: ["gate.riseTime"],
        remedies: [
          setTo(context, {
            path,
            value: Math.max(0.9 * lines.look * half, Math.min(1.6 * rise, deadTime)),
            dimension: "time",
            digits: 2,
            toward: "down",
          }),
        ],
      },
    ];
  },
});
