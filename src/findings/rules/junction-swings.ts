import { burstsShortened } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

/** Rise of the junction over its mean in each burst [K] from which bond wires tire. From memory. */
const lines = { look: 30, fix: 80 };

export const junctionSwings = defineRule({
  id: "junction-swings",
  room: "driver",
  says: "A junction that jumps by tens of kelvins in each burst tires its bond wires: a hundred bursts a second are ten million in a day.",
  source: "power-cycling",
  needs: ["switch.junctionPeak", "switch.junctionMean"],
  judge(context) {
    const found = greatest(context, "switch.junctionPeak");
    if (found === undefined) return [];
    const swing = (study: typeof found.study) =>
      (study.figures.get("switch.junctionPeak")?.value ?? 0) - (study.figures.get("switch.junctionMean")?.value ?? 0);
    const now = context.value("switch.junctionPeak") - context.value("switch.junctionMean");
    const most = swing(found.study);
    const severity = graded({ now, most }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "bridge.switch.thermal",
        what: `the junction rises ${number(most)} K above its mean ${found.basis}`,
        expected: `at most ${lines.look} K`,
        evidence: found.evidence,
        remedies: [
          ...burstsShortened(context, (found.study.setting.onTime * lines.look) / most),
          byHand("use larger switches, or change the gates nearer to the crossing"),
        ],
      },
    ];
  },
});
