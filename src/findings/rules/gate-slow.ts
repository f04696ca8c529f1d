import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { ohms, percent, seconds } from "../words.ts";

/** Rise time as a part of the half-cycle. Common practice, no source. */
const lines = { look: 0.1, fix: 0.25 };

export const gateSlow = defineRule({
  id: "gate-slow",
  room: "driver",
  says: "A gate that rises slowly holds its switch half on: heat at each crossing, and a delay that no lead was set for.",
  source: "gate-step",
  needs: ["gate.riseTime", "poles.lower"],
  judge(context) {
    const gate = context.coil.bridge?.gate;
    if (gate === undefined) return [];
    const rise = context.value("gate.riseTime");
    const half = context.valueIfKnown("control.link.halfCycle") ?? 1 / (2 * context.value("poles.lower"));
    const severity = graded({ now: rise / half }, lines);
    if (severity === undefined) return [];
    const path = "bridge.gate.resistor";
    return [
      {
        severity,
        path,
        what: `the gate takes ${seconds(rise)} to rise through ${ohms(gate.resistor)}, ${percent(rise / half)} of a half-cycle`,
        expected: `at most ${percent(lines.look)}, ${seconds(lines.look * half)}`,
        evidence: ["bridge.gate.charge", "bridge.gate.drive"],
        remedies: [
          ...(gate.resistor > 0
            ? [
                setTo(context, {
                  path,
                  value: (0.9 * gate.resistor * lines.look * half) / rise,
                  dimension: "resistance",
                  digits: 2,
                  toward: "down",
                }),
              ]
            : []),
          byHand("use a stronger driver, less leakage in the gate transformer, or switches of less gate charge"),
        ],
      },
    ];
  },
});
