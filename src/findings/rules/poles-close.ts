import { byHand, defineRule } from "../rule.ts";
import { hertz, percent } from "../words.ts";

const look = 0.04;
const fix = 0.02;

export const polesClose = defineRule({
  id: "poles-close",
  room: "resonance",
  says: "Between poles that lie close a feedback loop hops from one to the other within a burst.",
  source: "coupled-circuits",
  needs: ["poles.lower", "poles.upper"],
  judge({ value }) {
    const [lower, upper] = [value("poles.lower"), value("poles.upper")];
    const apart = upper / lower - 1;
    if (apart >= look) return [];
    return [
      {
        severity: apart < fix ? "fix" : "look",
        path: "primary",
        what: `the coupled poles lie at ${hertz(lower)} and ${hertz(upper)}, ${percent(apart)} apart`,
        expected: `${percent(look)} or more apart, so that feedback keeps to one of them`,
        evidence: ["coupling.kMode1", "tuning.ratio"],
        remedies: [byHand("couple the primary more closely")],
      },
    ];
  },
});
