import { counted, defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { celsius } from "../words.ts";

const celsiusZero = 273.15;
/** Kelvins that losses at temperature and contact to the heatsink easily make. Common practice, no source. */
const near = 15;

export const programmeJunctionNearLimit = defineProgrammeRule({
  id: "programme-junction-near-limit",
  says: "A song heats the switches in its loudest passage; the plan ends at the limit, and the last kelvins before it are not known to be there.",
  source: "foster-network",
  needs: ["programme.junctionPeak"],
  judge({ figure, programme: { limits, reasons } }) {
    const peak = figure("programme.junctionPeak");
    if (peak === undefined || limits?.junction === undefined) return [];
    const limit = limits.junction.most - celsiusZero;
    const high = peak.high ?? peak.value;
    if (!(high > limit - near)) return [];
    const cut = reasons.junction.trimmed + reasons.junction.dropped;
    return [
      {
        severity: cut > 0 ? "fix" : "look",
        path: "bridge.switch.junctionMax",
        what: `the junction may come to ${celsius(high)} in the song, within ${near} K of its limit of ${celsius(limit)}${cut > 0 ? `; ${counted(cut, "pulse")} had to be shortened or left out for it` : ""}`,
        expected: `at most ${celsius(limit - near)} at the upper end of its interval`,
        evidence: ["bridge.heatsink"],
        remedies: [
          byHand("plan with a shorter on-time, or let it be fitted with --fit"),
          byHand("use a better heatsink, or larger switches"),
        ],
      },
    ];
  },
});
