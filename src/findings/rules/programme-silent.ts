import { countsByReason, defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";

export const programmeSilent = defineProgrammeRule({
  id: "programme-silent",
  says: "A song of which no pulse is sent is either outside every limit of the coil or empty.",
  source: "programme-plan",
  needs: ["programme.pulses", "programme.notes"],
  judge({ value, programme: { reasons } }) {
    if (value("programme.pulses") > 0) return [];
    const notes = value("programme.notes");
    const why = countsByReason(reasons, "dropped");
    const muted = reasons.muted.dropped > 0 && why === "";
    return [
      {
        severity: "fix",
        path: "interrupter.limits",
        what:
          notes === 0
            ? "there is no note in the song: nothing is sent"
            : muted
              ? "every voice is muted: nothing is sent"
              : `nothing of the song is sent${why === "" ? "" : `: pulses are left out ${why}`}`,
        expected: "at least one pulse",
        remedies: [
          byHand(
            notes === 0 || muted
              ? "give it a song with a voice that sounds"
              : "let it be fitted: --fit moves, thins and shortens",
          ),
        ],
      },
    ];
  },
});
