import { byHand, defineRule, setting } from "../rule.ts";
import { number } from "../words.ts";

export const tankAboveSecondary = defineRule({
  id: "tank-above-secondary",
  room: "resonance",
  says: "A streamer only lowers f1: a tank above the unloaded f1 drifts out of tune as the arc grows.",
  source: "common-practice",
  needs: ["tuning.ratio", "tuning.tapForMatch"],
  judge({ value, coil }) {
    const ratio = value("tuning.ratio");
    if (ratio <= 1 || coil.primary === undefined || (coil.aim !== undefined && "ratio" in coil.aim)) return [];
    const tap = value("tuning.tapForMatch");
    return [
      {
        severity: ratio > 1.05 ? "fix" : "look",
        path: "primary.tap",
        what: `the tank rings ${number(ratio)} times as high as the unloaded secondary, and every streamer takes them further apart`,
        expected: "a ratio below 1, at the frequency of the loaded secondary",
        evidence: ["tank.frequency", "secondary.f1"],
        remedies:
          tap <= coil.primary.turns
            ? [setting({ path: "primary.tap", value: tap.toFixed(2) })]
            : [byHand("use a larger bank, or more turns on the primary")],
      },
    ];
  },
});
