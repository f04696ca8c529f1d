import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { percent } from "../words.ts";

/** From here on temperatures and powers of a programme are guesses more than figures. */
const doubtful = 0.5;

export const programmeEnergiesDoubtful = defineProgrammeRule({
  id: "programme-energies-doubtful",
  says: "The energy of a pulse is tabled over on-time and bus; where it jumps between the table's points, power and heat of a song are as unsure.",
  source: "programme-energies",
  needs: ["programme.energyError"],
  judge({ value }) {
    const error = value("programme.energyError");
    if (!(error > doubtful)) return [];
    return [
      {
        severity: "look",
        path: "interrupter.limits.onTime",
        what: `the energy of a pulse differs from its table by up to ${percent(error)}: it jumps where the top breaks out or a trip cuts the burst`,
        expected: `at most ${percent(doubtful)}`,
        remedies: [byHand("take powers and temperatures of this programme as rough, and plan with a margin")],
      },
    ];
  },
});
