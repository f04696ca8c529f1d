import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { number } from "../words.ts";

/** What a trained ear tells apart in a melody [cent]. From memory. */
const heard = 5;

export const programmePitchOff = defineProgrammeRule({
  id: "programme-pitch-off",
  says: "Pulses that move out of each other's way pull short notes off their pitch.",
  source: "iso-16",
  needs: ["programme.pitchError", "programme.notesLowered"],
  judge({ value }) {
    const cents = value("programme.pitchError");
    // Octaves are the business of the rule about lowered notes.
    if (!(cents > heard) || value("programme.notesLowered") > 0) return [];
    return [
      {
        severity: "look",
        path: "interrupter.limits.gap",
        what: `a note is ${number(cents)} cent off its pitch in the mean`,
        expected: `at most ${heard} cent`,
        evidence: ["programme.largestShift"],
        remedies: [
          byHand("let pulses move less, with a budget of 20 cent instead of 50"),
          byHand("let fewer notes sound at a time"),
        ],
      },
    ];
  },
});
