import { byHand, defineRule } from "../rule.ts";
import { hertz, percent } from "../words.ts";

const look = 0.004;

export const peopleShiftTune = defineRule({
  id: "people-shift-tune",
  room: "resonance",
  says: "A coil that people detune by standing there runs off its tune when they move.",
  source: "boundary-elements",
  needs: ["detuning.person", "secondary.f1"],
  judge({ value }) {
    const shift = value("detuning.person");
    const share = Math.abs(shift) / value("secondary.f1");
    if (share < look) return [];
    return [
      {
        severity: "look",
        path: "site.people",
        what: `the people listed shift f1 by ${hertz(shift)}, ${percent(share)}`,
        expected: `less than ${percent(look)}, or a tune made with them in place`,
        remedies: [byHand("tune with people where they will stand, and keep them further away")],
      },
    ];
  },
});
