import { lead } from "../gate-timing.ts";
import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes, seconds } from "../words.ts";

/** Current switched off, as a part of the burst's peak. Common practice, no source. */
const [some, much] = [0.35, 0.65];

export const gatesEarly = defineRule({
  id: "gates-early",
  room: "driver",
  says: "A little early is well, since the opposite diode then takes over softly; far too early each half-cycle pays for a turn-off at high current and the burst leaves its pole.",
  source: "switching-energy-scaling",
  needs: ["feedback.timeError", "switch.commutationCurrent", "burst.peakPrimaryCurrent"],
  judge(context) {
    const error = context.value("feedback.timeError");
    const off = context.value("switch.commutationCurrent");
    const peak = context.value("burst.peakPrimaryCurrent");
    // Where as much is taken over as is switched off, it is not the lead: the other rule speaks of the parts out of step.
    if (error >= 0 || (context.valueIfKnown("switch.takenOverCurrent") ?? 0) > some * peak) return [];
    const severity = graded({ now: off }, { look: some * peak, fix: much * peak });
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "feedback.lead",
        what: `the gates change ${seconds(-error)} before the crossing and switch off up to ${amperes(off)}, in a burst that peaks at ${amperes(peak)}`,
        expected: `at most ${amperes(some * peak)}, a third of the peak`,
        evidence: ["feedback.delay"],
        remedies: [...lead(context), byHand("use less lead")],
      },
    ];
  },
});
