import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes, ohms } from "../words.ts";

/** Effective current [A] that keeps a usual inrush thermistor hot, and what it keeps of its resistance then. Common practice, no source. */
const hot = 0.8;
const warmShare = 0.05;
/** The mains' own resistance [Ω]. Common practice, no source. */
const mains = 0.5;

export const thermistorWarm = defineRule({
  id: "thermistor-warm",
  room: "driver",
  says: "A thermistor that is still warm does not limit: switched off and on again, the bus meets the mains with next to nothing between.",
  source: "inrush-law",
  needs: ["mains.currentRms", "mains.inrushPeak"],
  judge(context) {
    const ntc = context.coil.supply?.inrush?.ntc;
    const found = greatest(context, "mains.currentRms");
    if (ntc === undefined || found === undefined || found.most.value <= hot) return [];
    const cold = context.value("mains.inrushPeak");
    const warm = (cold * (ntc + mains)) / (warmShare * ntc + mains);
    return [
      {
        severity: "look",
        path: "supply.inrush.ntc",
        what: `${amperes(found.most.value)} keep the thermistor of ${ohms(ntc)} hot ${found.basis}; switched on again before it has cooled, an empty bus takes about ${amperes(warm)} instead of ${amperes(cold)}`,
        expected: "a relay that bridges the thermistor while the coil runs, or minutes between off and on",
        evidence: found.evidence,
        remedies: [
          byHand("bridge it by a relay once the bus is charged, so that it is cold again"),
          byHand("wait a few minutes before switching on again"),
        ],
      },
    ];
  },
});
