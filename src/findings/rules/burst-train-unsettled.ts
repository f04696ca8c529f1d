import { byHand, defineRule } from "../rule.ts";

export const burstTrainUnsettled = defineRule({
  id: "burst-train-unsettled",
  room: "burst",
  says: "Where one burst is unlike the next, the figures are those of the last one that was tried, and the coil runs unevenly.",
  source: "burst-train",
  judge({ study }) {
    if (study?.train === undefined || study.train.settled) return [];
    return [
      {
        severity: "look",
        path: "interrupter",
        what: `after ${study.train.bursts} bursts one is still not like the next`,
        expected: "bursts that repeat",
        evidence: ["burst.breakoutTime", "burst.tripTime"],
        remedies: [
          byHand(
            "move on-time or overcurrent setting a little: a breakout or a trip at the very end of the drive flips from burst to burst",
          ),
        ],
      },
    ];
  },
});
