import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { byHand, defineRule } from "../rule.ts";
import { hertz, percent, seconds } from "../words.ts";

/** Share of the time that is driven. Common practice, no source. */
const lines = { look: 0.1, fix: 0.25 };

export const dutyHigh = defineRule({
  id: "duty-high",
  room: "burst",
  says: "Parts of a double-resonant coil are chosen for bursts with long pauses; driven for a tenth of the time they are not.",
  source: "common-practice",
  judge(context) {
    const { interrupter } = context.coil;
    if (interrupter === undefined) return [];
    const onTime = context.study?.setting.onTime ?? interrupter.onTime;
    const rate = context.study?.setting.rate ?? interrupter.rate;
    const severity = graded({ now: onTime * rate }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "interrupter.rate",
        what: `${seconds(onTime)} at ${hertz(rate)} drive the coil for ${percent(onTime * rate)} of the time`,
        expected: `at most ${percent(lines.look)}`,
        evidence: ["interrupter.onTime"],
        remedies: [
          ...burstsThinned(context, lines.look / (onTime * rate)),
          byHand("keep it for single notes, and let it cool between them"),
        ],
      },
    ];
  },
});
