import { counted, countsByReason, defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";

export const programmeNotesMissing = defineProgrammeRule({
  id: "programme-notes-missing",
  says: "Notes of which no pulse can be sent are missing from what is heard.",
  source: "programme-plan",
  needs: ["programme.notesSilent", "programme.notes", "programme.pulses"],
  judge({ value, programme: { reasons, fit } }) {
    const [silent, notes] = [value("programme.notesSilent"), value("programme.notes")];
    if (silent === 0 || value("programme.pulses") === 0) return [];
    const why = countsByReason(reasons, "dropped");
    return [
      {
        severity: "look",
        path: "interrupter.limits",
        what: `of ${counted(notes, "note")} ${silent === 1 ? "one is" : `${silent} are`} not heard at all; pulses are left out ${why}`,
        expected: "something of every note",
        evidence: ["programme.dropped"],
        remedies: [
          ...(fit ? [] : [byHand("let it be fitted: --fit moves by octaves, thins chords and shortens pulses")]),
          byHand("give the voices that matter a higher priority, or mute others"),
          byHand("take a song with fewer notes at a time"),
        ],
      },
    ];
  },
});
