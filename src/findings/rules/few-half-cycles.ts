import { defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { number, seconds } from "../words.ts";

/** Half-cycles below which link, latch and the first crossing decide how long the burst is. Common practice, no source. */
const few = 6;

export const fewHalfCycles = defineRule({
  id: "few-half-cycles",
  room: "driver",
  says: "A pulse of a few half-cycles is made longer or shorter by whole ones in optical link and latch; each burst then is another.",
  source: "common-practice",
  needs: ["control.link.halfCycle"],
  judge(context) {
    const { study } = context;
    const half = context.value("control.link.halfCycle");
    if (study === undefined) return [];
    const { onTime } = study.setting;
    if (onTime >= few * half) return [];
    const path = "interrupter.onTime";
    return [
      {
        severity: onTime < 2 * half ? "fix" : "look",
        path,
        what: `the on-time of ${seconds(onTime)} is ${number(onTime / half)} half-cycles of ${seconds(half)}`,
        expected: `at least ${few} half-cycles, ${seconds(few * half)}`,
        remedies: [setTo(context, { path, value: few * half, dimension: "time", digits: 2, toward: "up" })],
      },
    ];
  },
});
