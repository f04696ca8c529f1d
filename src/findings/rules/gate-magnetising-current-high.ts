import { graded } from "../graded.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { amperes, number } from "../words.ts";

/** Magnetising current [A] that the gate driver gives besides the gates' own. Common practice, no source. */
const lines = { look: 0.5, fix: 2 };

export const gateMagnetisingCurrentHigh = defineRule({
  id: "gate-magnetising-current-high",
  room: "driver",
  says: "Magnetising current loads the gate driver for nothing, and rings the gates when the drive ends.",
  source: "gate-transformer",
  needs: ["gate.transformer.magnetisingCurrent"],
  judge(context) {
    const transformer = context.coil.bridge?.gate.transformer;
    const current = context.figure("gate.transformer.magnetisingCurrent");
    if (transformer === undefined || current === undefined) return [];
    const most = current.high ?? current.value;
    const severity = graded({ now: current.value, most }, lines);
    if (severity === undefined) return [];
    const path = "bridge.gate.transformer.turns";
    return [
      {
        severity,
        path,
        what: `the gate transformer takes about ${amperes(current.value)} of magnetising current, up to ${amperes(most)}`,
        expected: `at most ${amperes(lines.look)}`,
        evidence: ["bridge.gate.transformer.coreArea"],
        remedies: [
          setting({ path, value: number(Math.ceil(1.05 * transformer.turns * Math.sqrt(most / lines.look))) }),
          byHand("measure the winding's inductance; use a core of higher permeability without a gap"),
        ],
      },
    ];
  },
});
