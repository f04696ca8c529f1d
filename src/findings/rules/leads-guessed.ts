import { byHand, defineRule, isGuess } from "../rule.ts";
import { henries, percent } from "../words.ts";

const look = 0.02;

export const leadsGuessed = defineRule({
  id: "leads-guessed",
  room: "resonance",
  says: "A guessed inductance of the leads moves the tune by half its share of the tank.",
  source: "lc-resonance",
  needs: ["tank.inductance"],
  judge({ coil, value, provenance }) {
    const leads = coil.tank?.leads.inductance;
    if (leads === undefined || !isGuess(provenance("tank.leads.inductance"))) return [];
    const share = leads / value("tank.inductance");
    if (share <= look) return [];
    return [
      {
        severity: "look",
        path: "tank.leads.inductance",
        what: `the leads' ${henries(leads)} are a guess and ${percent(share)} of the tank's inductance`,
        expected: "a measured value, or the frequency of the tank with the secondary away",
        remedies: [
          byHand(
            "short the primary at its terminals, measure the tank's frequency, and write what follows with (measured)",
          ),
        ],
      },
    ];
  },
});
