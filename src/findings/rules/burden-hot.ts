import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { ohms, watts } from "../words.ts";

/** Heat [W] of the burden: a small resistor, and one that unsolders itself. Common practice, no source. */
const lines = { look: 0.25, fix: 1 };

export const burdenHot = defineRule({
  id: "burden-hot",
  room: "driver",
  says: "A burden that burns open leaves the current transformer without a load: its voltage then has no bound but the core.",
  source: "current-transformer",
  needs: ["burst.rmsPrimaryCurrent"],
  judge(context) {
    const { feedback } = context.coil;
    const found = greatest(context, "burst.rmsPrimaryCurrent");
    if (found === undefined || feedback?.transformer === undefined || feedback.sense !== "primaryCurrent") return [];
    const { ratio, burden } = feedback.transformer;
    const heat = (current: number) => (current / ratio) ** 2 * burden;
    const most = heat(found.most.value);
    const severity = graded({ now: heat(found.now.value), most }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "feedback.transformer.burden",
        what: `the burden of ${ohms(burden)} takes ${watts(most)} in the mean ${found.basis}`,
        expected: `at most ${watts(lines.look)}, or a resistor rated for several times that`,
        evidence: [...found.evidence, "feedback.transformer.ratio"],
        remedies: [byHand("use a transformer of more turns, a smaller burden, or several resistors side by side")],
      },
    ];
  },
});
