import { counted, defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { hertz } from "../words.ts";

export const programmeNotesLowered = defineProgrammeRule({
  id: "programme-notes-lowered",
  says: "A tone faster than rate or gap let through is played with every second, fourth, … pulse, and sounds octaves lower.",
  source: "programme-plan",
  needs: ["programme.notesLowered"],
  judge({ value, programme: { highest, fit } }) {
    const lowered = value("programme.notesLowered");
    if (lowered === 0 || highest === undefined) return [];
    return [
      {
        severity: "look",
        path: "interrupter.limits",
        what: `${counted(lowered, "note")} ${lowered === 1 ? "is" : "are"} higher than the ${hertz(highest)} that rate and gap let through, and ${lowered === 1 ? "sounds" : "sound"} whole octaves lower`,
        expected: `tones below ${hertz(highest)}`,
        evidence: ["programme.pitchError"],
        remedies: [
          ...(fit ? [] : [byHand("let it be fitted: --fit moves the whole song, so that its intervals stay")]),
          byHand("transpose it: --transpose -12"),
        ],
      },
    ];
  },
});
