import { lead, turnOnAfterCrossing } from "../gate-timing.ts";
import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes, seconds } from "../words.ts";

/** Current taken over from the opposite diode, as a part of the burst's peak. Common practice, no source. */
const [some, much] = [0.2, 0.5];

export const gatesLate = defineRule({
  id: "gates-late",
  room: "driver",
  says: "Gates that change after the crossing put a switch on into a diode that still conducts: recovery, ringing and heat at each half-cycle.",
  source: "switching-energy-scaling",
  needs: ["switch.takenOverCurrent", "burst.peakPrimaryCurrent"],
  judge(context) {
    const after = turnOnAfterCrossing(context);
    const { bridge } = context.coil;
    if (after === undefined || after <= 0 || bridge === undefined) return [];
    const taken = context.value("switch.takenOverCurrent");
    const peak = context.value("burst.peakPrimaryCurrent");
    const severity = graded({ now: taken }, { look: some * peak, fix: Math.min(much * peak, bridge.switch.current) });
    if (severity === undefined) return [];
    return [
      {
        severity: taken > some * peak ? severity : "look",
        path: "feedback.lead",
        what: `a switch goes on ${seconds(after)} after the crossing and takes over up to ${amperes(taken)} from the opposite diode, in a burst that peaks at ${amperes(peak)}`,
        expected: `at most ${amperes(some * peak)}, a fifth of the peak`,
        evidence: ["feedback.timeError", "feedback.delay", "bridge.deadTime"],
        remedies: [...lead(context), byHand("use a faster driver, or more lead")],
      },
    ];
  },
});
