import { timeToFullDose } from "../../safety/index.ts";
import { byHand, defineRule } from "../rule.ts";
import { standoffOf } from "../standoff-of.ts";
import { number, percent, seconds } from "../words.ts";

/** Over a hard floor sound is 3 dB louder than all round. */
const floorGain = 3;

export const standoffDoseFull = defineRule({
  id: "standoff-dose-full",
  room: "stand-off",
  says: "Hearing that a loud show takes does not come back.",
  source: "niosh-98-126",
  judge(context) {
    const show = context.coil.show;
    const noise = show && standoffOf(context)?.noise;
    if (show === undefined || noise === undefined) return [];
    const { duration } = noise;
    if (duration === undefined) {
      return [
        {
          severity: "look",
          path: "show.duration",
          what: "the length of the show is not given, so the dose of noise does not enter the line",
          expected: "show.duration: how long sparks are heard in one day",
          evidence: ["burst.streamerPower"],
          remedies: [byHand("add up the songs and write it down")],
        },
      ];
    }
    const barrier = show.barrier ?? 1;
    const here = noise.levelAt1m.high + floorGain - 20 * Math.log10(barrier);
    const full = timeToFullDose(here);
    if (duration <= full) return [];
    return [
      {
        severity: "fix",
        path: "show.duration",
        what: `at the barrier ${seconds(duration)} of sparks are ${percent(duration / full)} of a day's dose, at the loud end of ${number(here)} dB(A)`,
        expected: `85 dB(A) over 8 h with 3 dB exchange is full after ${seconds(full)} there`,
        evidence: ["burst.streamerPower", "show.barrier"],
        remedies: [
          byHand("measure the level once and write it down as show.noise: it takes the place of ten decibels of doubt"),
          byHand("shorten the show, move the barrier out, and give out hearing protection"),
        ],
      },
    ];
  },
});
