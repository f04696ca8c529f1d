import { burstsThinned } from "../bursts.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { joules } from "../words.ts";

export const busStarved = defineRule({
  id: "bus-starved",
  room: "driver",
  says: "Bus capacitors that empty between two half-waves of the mains leave the bursts in between without voltage.",
  source: "ideal-rectifier",
  needs: ["burst.energyDrawn", "bus.storedEnergy"],
  judge(context) {
    const { study, coil, value } = context;
    if (study === undefined || coil.supply === undefined) return [];
    // With a bus there is a ripple, unless the rectifier cannot keep it charged.
    if (!(study.setting.busVoltage > 0) || study.figures.has("bus.ripple")) return [];
    const path = "supply.capacitors.each";
    return [
      {
        severity: "fix",
        path,
        what: `the bursts draw more than the bus holds from one half-wave of the mains to the next: ${joules(value("burst.energyDrawn"))} a burst from ${joules(value("bus.storedEnergy"))}`,
        expected: "a bus that holds several bursts",
        evidence: ["interrupter.rate", "supply.mains.frequency"],
        remedies: [
          setTo(context, { path, value: 10 * coil.supply.capacitors.each, dimension: "capacitance", digits: 2 }),
          ...burstsThinned(context, 0.1),
          byHand("read the supply section again for a capacitance that is out by a power of ten"),
        ],
      },
    ];
  },
});
