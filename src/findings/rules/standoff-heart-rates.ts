import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { hertz } from "../words.ts";

/** Rates [Hz] that a device which senses a heart may take for one. From memory. */
const heartLike = { from: 0.5, to: 5 };

export const standoffHeartRates = defineRule({
  id: "standoff-heart-rates",
  room: "stand-off",
  says: "Bursts at the rate of a heart are the worst for implants that listen for one.",
  source: "implant-makers",
  judge(context) {
    const { interrupter } = context.coil;
    if (interrupter === undefined || interrupter.rate < heartLike.from || interrupter.rate > heartLike.to) return [];
    return [
      {
        severity: "look",
        path: "interrupter.rate",
        what: `${hertz(interrupter.rate)} is like the rate of a heart, and a pacemaker or defibrillator may take the bursts for one`,
        expected: "no implant wearer in the room without their doctor's word, at any rate; no distance is computed",
        remedies: [
          setTo(context, { path: "interrupter.rate", value: 6, dimension: "frequency", digits: 2, toward: "up" }),
          byHand("ask aloud before every show"),
        ],
      },
    ];
  },
});
