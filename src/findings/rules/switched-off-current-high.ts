import { lead } from "../gate-timing.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes } from "../words.ts";

export const switchedOffCurrentHigh = defineRule({
  id: "switched-off-current-high",
  room: "driver",
  says: "A resonant bridge lives above its continuous rating because it switches near the crossings; a turn-off above that rating leaves the area that the data sheet covers.",
  source: "switching-energy-scaling",
  needs: ["switch.commutationCurrent"],
  judge(context) {
    const { bridge } = context.coil;
    const found = greatest(context, "switch.commutationCurrent");
    if (bridge === undefined || found === undefined) return [];
    const { current, turnOff } = bridge.switch;
    const most = found.most.value;
    const severity = graded(
      { now: found.now.value, most },
      { look: Math.min(turnOff.atCurrent, current), fix: current },
    );
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "bridge.switch.current",
        what: `up to ${amperes(most)} are switched off ${found.basis}; the switch's turn-off energy is known at ${amperes(turnOff.atCurrent)}, its continuous rating is ${amperes(current)}`,
        expected: `at most ${amperes(Math.min(turnOff.atCurrent, current))}`,
        evidence: [...found.evidence, "feedback.timeError", "bridge.switch.turnOff"],
        remedies: [...lead(context), byHand("use a larger switch, or lower the overcurrent setting")],
      },
    ];
  },
});
