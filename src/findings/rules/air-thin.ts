import { airDensity } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { number, percent } from "../words.ts";

const least = 0.9;

export const airThin = defineRule({
  id: "air-thin",
  room: "shape",
  says: "Thin air breaks down early: every gap and clearance counts for less than at sea level.",
  source: "iec-60060-1",
  judge(context) {
    const density = airDensity(context);
    if (density >= least) return [];
    return [
      {
        severity: "look",
        path: "site.air.pressure",
        what: `the air has ${number(density)} of its standard density, and every gap holds ${percent(1 - density)} less`,
        expected: "clearances made larger by that much",
        evidence: ["site.air.temperature"],
        remedies: [byHand("widen the gaps between primary, strike ring and winding")],
      },
    ];
  },
});
