import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { hertz, number } from "../words.ts";

export const programmeRateReached = defineProgrammeRule({
  id: "programme-rate-reached",
  says: "Tones that sound together add their frequencies; where the sum passes the rate, notes are silent meanwhile.",
  source: "programme-plan",
  needs: ["programme.peakRate"],
  judge({ value, programme: { limits, reasons } }) {
    if (limits === undefined || reasons.rate.dropped === 0) return [];
    return [
      {
        severity: "look",
        path: "interrupter.limits.rate",
        what: `the song asks for more than the rate of ${hertz(limits.rate)}: ${number(reasons.rate.dropped)} pulses are left out for it`,
        expected: `tones that together stay below ${hertz(limits.rate)}`,
        evidence: [`programme.peakRate`, "programme.dropped"],
        remedies: [
          byHand(
            `play it an octave lower, which halves the sum; its worst second now has ${number(value("programme.peakRate"))} pulses`,
          ),
          byHand("let fewer notes sound at a time, or let it be fitted with --fit"),
        ],
      },
    ];
  },
});
