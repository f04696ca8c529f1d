import { byHand, defineRule } from "../rule.ts";
import { joules, volts } from "../words.ts";

/** Energy [J] and voltage [V] together from which a charged capacitor is a shock hazard. Source: doe-capacitor-hazard. */
const line = { energy: 10, voltage: 100 };

export const busStoredEnergy = defineRule({
  id: "bus-stored-energy",
  room: "driver",
  says: "What the bus holds can kill at one touch, long after the plug is out.",
  source: "doe-capacitor-hazard",
  needs: ["bus.storedEnergy", "bus.peakVoltage"],
  judge({ figure, value }) {
    const stored = figure("bus.storedEnergy");
    const voltage = value("bus.peakVoltage");
    const energy = stored?.high ?? stored?.value ?? 0;
    if (energy <= line.energy || voltage < line.voltage) return [];
    return [
      {
        severity: "look",
        path: "supply.capacitors",
        what: `the bus holds up to ${joules(energy)} at ${volts(voltage)} with the mains 10 % high`,
        expected: `to hold it against: ${line.energy} J at ${line.voltage} V or more, where laboratories of the US Department of Energy count a capacitor as a shock hazard, and 1 J above 400 V, as remembered; 45 µC or 350 mJ at high voltage are the lines of IEC 60335-1 for parts that people can reach, as quoted`,
        evidence: ["supply.mains", "supply.rectifier"],
        remedies: [
          byHand(
            "unplug, wait the time to 60 V, measure on every capacitor, short it through a resistor and leave the short on: a bleeder or a lamp is no proof",
          ),
          byHand("put a cover over the bus that needs a tool to open, with energy and time written on it"),
          byHand("store less, within what sag and ripple allow"),
        ],
      },
    ];
  },
});
