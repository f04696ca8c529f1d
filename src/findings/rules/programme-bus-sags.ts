import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { percent, volts } from "../words.ts";

/** Part of the bus below which a passage is heard to be weaker. Common practice, no source. */
const heard = 0.85;

export const programmeBusSags = defineProgrammeRule({
  id: "programme-bus-sags",
  says: "A dense passage empties the bus capacitors between two refills by the mains, and its sparks get shorter.",
  source: "programme-energies",
  needs: ["programme.lowestBus"],
  judge({ value, coil, programme }) {
    const lowest = value("programme.lowestBus");
    const full = programme.busVoltage;
    if (full === undefined || coil.supply === undefined || !(lowest < heard * full)) return [];
    return [
      {
        severity: "look",
        path: "supply.capacitors",
        what: `the bus falls to ${volts(lowest)} in the densest passage, ${percent(lowest / full)} of its ${volts(full)}`,
        expected: `at least ${volts(heard * full)}`,
        evidence: ["programme.peakPower"],
        remedies: [byHand("plan with a shorter on-time"), byHand("use a larger bus capacitor")],
      },
    ];
  },
});
