import { graded } from "../graded.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { volts } from "../words.ts";

/** Mains above nominal that the figure reckons with. */
const highMains = 1.1;
/** Part of the rating that is used with the mains high. Common practice, no source. */
const used = 0.95;

export const busCapacitorOverVoltage = defineRule({
  id: "bus-capacitor-over-voltage",
  room: "driver",
  says: "An electrolytic capacitor above its voltage draws current, boils and bursts its vent.",
  source: "common-practice",
  needs: ["bus.voltageEach"],
  judge({ coil, value }) {
    const { supply } = coil;
    if (supply === undefined) return [];
    const { voltage, series, parallel } = supply.capacitors;
    const each = value("bus.voltageEach");
    const severity = graded({ now: each }, { look: used * voltage, fix: voltage, stop: highMains * voltage });
    if (severity === undefined) return [];
    const more = Math.ceil((each * series) / (used * voltage));
    return [
      {
        severity,
        path: "supply.capacitors.voltage",
        what: `with the mains 10 % high ${volts(each)} stand on each bus capacitor, ${volts(each / highMains)} at nominal mains; its rating is ${volts(voltage)}`,
        expected: `at most ${volts(used * voltage)}, in a string that shares it equally`,
        evidence: ["supply.mains", "supply.rectifier", "supply.capacitors.series"],
        remedies: [
          setting(
            { path: "supply.capacitors.series", value: String(more) },
            { path: "supply.capacitors.parallel", value: String(Math.max(1, Math.round((parallel * more) / series))) },
          ),
          byHand(`use capacitors rated for ${volts(each / used)} or more`),
        ],
      },
    ];
  },
});
