import { byHand, defineRule } from "../rule.ts";
import { roughLength } from "../words.ts";

/** A lead of this length [m] has some kilohms of its own at the coil's frequency. Common practice, no source. */
const longLead = 15;

export const standoffEarthMissing = defineRule({
  id: "standoff-earth-missing",
  room: "stand-off",
  says: "Without an earth of its own the spark's current goes home through the mains earth, instruments and people.",
  source: "stand-off-practice",
  judge({ coil: { show } }) {
    if (show === undefined) return [];
    const lead = show.earth?.lead;
    if (show.earth !== undefined && (lead === undefined || lead <= longLead)) return [];
    return [
      {
        severity: show.earth === undefined ? ("fix" as const) : ("look" as const),
        path: show.earth === undefined ? "show.earth" : "show.earth.lead",
        what:
          show.earth === undefined
            ? "no earth rod or plate is given: where the spark's current goes is not known"
            : `the earth lead is ${roughLength(lead ?? 0)} long: at this frequency its inductance counts for more than the rod`,
        expected: `a rod or plate of its own, and a wide lead of at most ${roughLength(longLead)}; the mains earth is no return for sparks`,
        remedies: [
          byHand(
            "drive a rod or lay a plate near the coil, bond foot, strike ring and rods to it, measure, and write it down",
          ),
        ],
      },
    ];
  },
});
