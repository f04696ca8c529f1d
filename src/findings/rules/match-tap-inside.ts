import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

const least = 2.5;

export const matchTapInside = defineRule({
  id: "match-tap-inside",
  room: "resonance",
  says: "With so few turns in circuit leads and switches carry a current far above what the coupling can use, and a tap moves the tune in jumps.",
  source: "common-practice",
  needs: ["tuning.tapForMatch"],
  judge({ coil, value }) {
    if (coil.primary === undefined) return [];
    const tap = value("tuning.tapForMatch");
    if (tap >= least) return [];
    return [
      {
        severity: "look",
        path: "tank.bank",
        what: `the aim asks for ${number(tap)} turns in circuit`,
        expected: `${least} turns or more, with a smaller bank`,
        evidence: ["primary.tap", "tank.capacitance"],
        remedies: [byHand("use a smaller bank and more turns")],
      },
    ];
  },
});
