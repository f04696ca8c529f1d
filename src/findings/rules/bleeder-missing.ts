import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { joules, volts } from "../words.ts";

/** Heat [W] that a suggested bleeder may take, and the time [s] it should do with. */
const gentle = { power: 4, time: 45 };

export const bleederMissing = defineRule({
  id: "bleeder-missing",
  room: "driver",
  says: "A bus without bleeders is charged for days after the plug is out, and looks as dead as a discharged one.",
  source: "doe-capacitor-hazard",
  needs: ["bus.storedEnergy", "bus.peakVoltage", "bus.voltageEach"],
  judge(context) {
    const { supply } = context.coil;
    if (supply === undefined || supply.capacitors.bleeder !== undefined) return [];
    const { each, parallel } = supply.capacitors;
    const voltage = context.value("bus.voltageEach");
    const path = "supply.capacitors.bleeder";
    const value = Math.max(voltage ** 2 / gentle.power, gentle.time / (2 * each * parallel));
    return [
      {
        severity: "fix",
        path,
        what: `nothing in the file discharges the bus: ${joules(context.value("bus.storedEnergy"))} at ${volts(context.value("bus.peakVoltage"))} stay on it after the plug is out`,
        expected: "a bleeder across each capacitor of a string, and a meter before each touch",
        remedies: [
          setTo(context, { path, value, dimension: "resistance", digits: 2, toward: "up" }),
          byHand("measure on every capacitor, then short it through a resistor and leave the short on"),
        ],
      },
    ];
  },
});
