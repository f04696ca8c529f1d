import type { Severity } from "../../catalogue/finding.ts";
import { defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { volts } from "../words.ts";

/** Drive [V] at which usual switches are fully on, and what their gates hold for long and for moments. From memory. */
const range = { igbt: { least: 13, weak: 10 }, mosfet: { least: 10, weak: 8 }, most: 20, pierces: 30 };

export const gateVoltageOutOfRange = defineRule({
  id: "gate-voltage-out-of-range",
  room: "driver",
  says: "Too little gate voltage leaves a switch unsaturated at the burst's peak, too much pierces its oxide.",
  source: "gate-drive-practice",
  judge(context) {
    const { bridge } = context.coil;
    if (bridge === undefined) return [];
    const { drive } = bridge.gate;
    const { least, weak } = range[bridge.switch.kind];
    const severity: Severity | undefined =
      drive > range.pierces ? "stop" : drive > range.most || drive < weak ? "fix" : drive < least ? "look" : undefined;
    if (severity === undefined) return [];
    const path = "bridge.gate.drive";
    const to = drive < least ? 15 : 18;
    return [
      {
        severity,
        path,
        what:
          drive < least
            ? `gates driven with ${volts(drive)} may leave the switch unsaturated at its peak current`
            : `gates are driven with ${volts(drive)}; most hold ${volts(range.most)}`,
        expected: `${volts(least)} to ${volts(range.most)}, or what the data sheet gives`,
        remedies: [setTo(context, { path, value: to, dimension: "voltage" })],
      },
    ];
  },
});
