import { countsByReason, defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { percent } from "../words.ts";

/** Part of the pulses that is missed by hardly anybody. Common practice, no source. */
const unheard = 0.05;

export const programmePulsesMissing = defineProgrammeRule({
  id: "programme-pulses-missing",
  says: "Left-out pulses are heard as roughness, and many of them as a weaker note.",
  source: "programme-plan",
  needs: ["programme.dropped", "programme.pulses", "programme.merged"],
  judge({ value, programme: { reasons } }) {
    const dropped = value("programme.dropped");
    const sent = value("programme.pulses");
    const share = dropped / Math.max(1, dropped + sent + value("programme.merged"));
    if (!(share > unheard) || sent === 0) return [];
    return [
      {
        severity: "look",
        path: "interrupter.limits",
        what: `${percent(share)} of the pulses are left out: ${countsByReason(reasons, "dropped")}`,
        expected: `at most ${percent(unheard)}`,
        remedies: [
          byHand("let fewer notes sound at a time, or let it be fitted with --fit"),
          byHand("allow pulses to move further, with a budget of 80 cent instead of 50"),
        ],
      },
    ];
  },
});
