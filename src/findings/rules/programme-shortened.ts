import { countsByReason, defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { percent } from "../words.ts";

/** Part of the pulses from which on a song sounds uneven. Common practice, no source. */
const uneven = 0.2;

export const programmeShortened = defineProgrammeRule({
  id: "programme-shortened",
  says: "Shortened pulses are softer; where a passage is shortened and its neighbours are not, it falls back behind them.",
  source: "programme-plan",
  needs: ["programme.trimmed", "programme.pulses"],
  judge({ value, programme: { reasons, fit } }) {
    const share = value("programme.trimmed") / Math.max(1, value("programme.pulses"));
    if (!(share > uneven)) return [];
    return [
      {
        severity: "look",
        path: "interrupter.limits",
        what: `${percent(share)} of the pulses are shortened: ${countsByReason(reasons, "trimmed")}`,
        expected: `at most ${percent(uneven)}, so that loud and soft stay as they are written`,
        remedies: [
          ...(fit ? [] : [byHand("let it be fitted: --fit makes every pulse shorter by the same part")]),
          byHand("plan with a shorter on-time"),
        ],
      },
    ];
  },
});
