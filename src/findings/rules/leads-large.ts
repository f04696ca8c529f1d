import { byHand, defineRule } from "../rule.ts";
import { henries, percent } from "../words.ts";

const look = 0.1;
const fix = 0.3;

export const leadsLarge = defineRule({
  id: "leads-large",
  room: "resonance",
  says: "Inductance in the leads couples to nothing: it takes the place of turns and weakens the coupling of the tank.",
  source: "lc-resonance",
  needs: ["primary.inductance"],
  judge({ coil, value }) {
    const leads = coil.tank?.leads.inductance;
    if (leads === undefined) return [];
    const share = leads / value("primary.inductance");
    if (share <= look) return [];
    return [
      {
        severity: share > fix ? "fix" : "look",
        path: "tank.leads.inductance",
        what: `the leads' ${henries(leads)} are ${percent(share)} of the primary's ${henries(value("primary.inductance"))}`,
        expected: `at most ${percent(look)}`,
        evidence: ["primary.tap"],
        remedies: [byHand("run both leads close together, flat strip over flat strip, and shorten them")],
      },
    ];
  },
});
