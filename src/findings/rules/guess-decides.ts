import { byHand, defineRule, isGuess } from "../rule.ts";
import { percent } from "../words.ts";

/** A guess's part of a figure's variance from which it is said to decide. */
const share = 0.3;
const asked = [
  "tuning.ratio",
  "topload.breakoutVoltage",
  "coupling.k",
  "burst.peakPrimaryCurrent",
  "burst.peakTopVoltage",
  "burst.streamerLength",
  "switch.junctionPeak",
  "bus.dischargeTime",
];

export const guessDecides = defineRule({
  id: "guess-decides",
  room: "resonance",
  says: "Where one guess makes most of an interval, one measurement is worth more than all other care.",
  source: "first-order-propagation",
  judge({ doubts, provenance }) {
    if (doubts === undefined) return [];
    return asked.flatMap((id) => {
      const worst = doubts.get(id)?.contributions[0];
      if (worst === undefined || worst.share < share || !isGuess(provenance(worst.path))) return [];
      return [
        {
          severity: "look" as const,
          path: worst.path,
          what: `this guess makes ${percent(worst.share)} of the doubt in ${id}`,
          expected: "a measured value, with its tolerance",
          evidence: [id],
          remedies: [byHand("measure it and write it with (measured)")],
        },
      ];
    });
  },
});
