import { byHand, defineRule } from "../rule.ts";
import { number, ohms } from "../words.ts";

const least = 120;

export const windingResistanceHigh = defineRule({
  id: "winding-resistance-high",
  room: "resonance",
  says: "The wire's plain resistance alone damps the resonance: thin wire, much of it.",
  source: "quality-factor",
  needs: ["secondary.resistanceDc", "secondary.f1", "secondary.energyInductance"],
  judge({ value }) {
    const resistance = value("secondary.resistanceDc");
    const q = (2 * Math.PI * value("secondary.f1") * value("secondary.energyInductance")) / resistance;
    if (q >= least) return [];
    return [
      {
        severity: "look",
        path: "secondary.wire",
        what: `the winding's ${ohms(resistance)} to direct current alone hold Q below ${number(q)}`,
        expected: `a resistance that would allow a Q of ${least} or more`,
        remedies: [byHand("use thicker wire and fewer turns")],
      },
    ];
  },
});
