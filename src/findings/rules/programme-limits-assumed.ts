import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { hertz, percent, seconds } from "../words.ts";

export const programmeLimitsAssumed = defineProgrammeRule({
  id: "programme-limits-assumed",
  says: "Without limits in the file a song is planned as if the interrupter's setting were its limits, which bounds nothing in the coil itself.",
  source: "common-practice",
  judge({ programme: { limits, limitsAssumed } }) {
    if (!limitsAssumed || limits === undefined) return [];
    return [
      {
        severity: "fix",
        path: "interrupter",
        what: `the file has no limits for the interrupter, and the song is planned with its setting in their place: ${seconds(limits.onTime)}, ${hertz(limits.rate)}, a duty of ${percent(limits.duty)}`,
        expected: "limits: { onTime, duty, rate, gap } as the interrupter enforces them",
        remedies: [byHand("read the limits off the interrupter, or measure them, and write them into the file")],
      },
    ];
  },
});
