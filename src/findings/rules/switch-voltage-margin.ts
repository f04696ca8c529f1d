import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { percent, volts } from "../words.ts";

/** Peak bus voltage as a part of the blocking voltage. Common practice, no source. */
const lines = { look: 0.7, fix: 0.85, stop: 1 };

export const switchVoltageMargin = defineRule({
  id: "switch-voltage-margin",
  room: "driver",
  says: "Each turn-off adds the voltage of every nanohenry between bus and switch; a switch that blocks little more than the bus breaks through.",
  source: "common-practice",
  needs: ["bus.peakVoltage"],
  judge({ coil, value }) {
    const { bridge, supply } = coil;
    if (bridge === undefined || supply === undefined) return [];
    const bus = value("bus.peakVoltage");
    const rating = bridge.switch.voltage;
    const severity = graded({ now: bus / rating }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "bridge.switch.voltage",
        what: `with the mains 10 % high the bus stands at ${volts(bus)}, ${percent(bus / rating)} of the ${volts(rating)} that a switch blocks`,
        expected: `at most ${percent(lines.look)}, ${volts(lines.look * rating)}`,
        evidence: ["supply.mains", "supply.rectifier"],
        remedies: [
          byHand(`use switches that block ${volts(bus / lines.look)} or more`),
          ...(supply.rectifier === "doubler" ? [byHand("charge the bus by a bridge instead of a doubler")] : []),
        ],
      },
    ];
  },
});
