import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { ohms, percent, volts } from "../words.ts";

/** Peak gate voltage [V]: what gates hold for long, and for moments. From memory. */
const lines = { look: 20, fix: 30 };
/** Damping at which a step overshoots by 5 %. */
const calm = 0.7;

export const gateOvershoots = defineRule({
  id: "gate-overshoots",
  room: "driver",
  says: "Leakage and gate ring; a gate resistor that is too small lets the ringing pierce the oxide, or put the other switch on.",
  source: "gate-step",
  needs: ["gate.overshoot", "gate.peakCurrent"],
  judge(context) {
    const gate = context.coil.bridge?.gate;
    if (gate === undefined) return [];
    const overshoot = context.value("gate.overshoot");
    const swing = gate.transformer ? 2 * gate.drive : gate.drive;
    const peak = gate.drive + overshoot * swing;
    const severity = graded({ now: peak }, lines);
    // Where the drive alone is too high another rule speaks.
    if (severity === undefined || overshoot === 0 || gate.drive > lines.look) return [];
    const path = "bridge.gate.resistor";
    const leakage = gate.transformer?.leakage ?? 0;
    return [
      {
        severity,
        path,
        what: `with ${ohms(gate.resistor)} the gate overshoots its swing of ${volts(swing)} by ${percent(overshoot)}, to ${volts(peak)}`,
        expected: `at most ${volts(lines.look)}, or clamps that hold it there`,
        evidence: ["bridge.gate.transformer", "bridge.gate.charge"],
        remedies: [
          setTo(context, {
            path,
            value: 2 * calm * Math.sqrt((leakage * swing) / gate.charge),
            dimension: "resistance",
            digits: 2,
            toward: "up",
          }),
          byHand(
            "clamp each gate with two zener diodes back to back, and wind the transformer with twisted wires for less leakage",
          ),
        ],
      },
    ];
  },
});
