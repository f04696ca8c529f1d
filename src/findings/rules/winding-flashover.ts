import { airDensity } from "../estimates.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { needleGapFor, needleGapSparkover } from "../laws/air-gap.ts";
import { windingOfLength } from "../moves.ts";
import { byHand, defineRule } from "../rule.ts";
import { length, roughVolts } from "../words.ts";

/** Part of the lowest sparkover from which it is worth a look. */
const near = 0.7;

export const windingFlashover = defineRule({
  id: "winding-flashover",
  room: "burst",
  says: "A top voltage that sparks over the whole winding's length goes from the top to primary or strike ring past it.",
  source: "aiee-needle-gap",
  needs: ["burst.peakTopVoltage"],
  judge(context) {
    const found = greatest(context, "burst.peakTopVoltage");
    if (found === undefined) return [];
    const density = airDensity(context);
    const { length: long } = context.coil.secondary;
    const holds = needleGapSparkover({ gap: long, density });
    const most = found.most.value;
    const severity = graded({ now: found.now.value, most }, { look: near * holds, fix: holds });
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "secondary.length",
        what: `the top reaches ${roughVolts(most)} ${found.basis}; ${length(long)} of air along the winding spark over at ${roughVolts(holds)} between points`,
        expected: `at most ${roughVolts(near * holds)}, or a winding of ${length(needleGapFor({ volts: most / near, density }))}`,
        evidence: found.evidence,
        remedies: [
          windingOfLength(context, needleGapFor({ volts: most / near, density })),
          byHand("let it break out earlier, or lower the bus"),
        ],
      },
    ];
  },
});
