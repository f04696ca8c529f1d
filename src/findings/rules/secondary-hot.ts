import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { number, watts } from "../words.ts";

/** Heat through a surface in still air [W/m²] at about 40 K and 100 K above the room, 10 W/(m²·K). From memory. */
const lines = { look: 400, fix: 1000 };

export const secondaryHot = defineRule({
  id: "secondary-hot",
  room: "burst",
  says: "A winding warms as a whole; enamel, varnish and former soften before it looks hot.",
  source: "natural-convection",
  needs: ["secondary.heat"],
  judge(context) {
    const found = greatest(context, "secondary.heat");
    if (found === undefined) return [];
    const { former, length } = context.coil.secondary;
    const surface = Math.PI * former.outerDiameter * length;
    const most = found.most.value / surface;
    const severity = graded({ now: found.now.value / surface, most }, lines);
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "secondary.wire",
        what: `${watts(found.most.value)} are lost in the winding ${found.basis}, ${number(most)} W/m² of its surface`,
        expected: `at most ${lines.look} W/m²: about 40 K above the room in still air`,
        evidence: [...found.evidence, "interrupter.rate", "secondary.qUnloaded"],
        remedies: [
          ...burstsThinned(context, lines.look / most),
          byHand("rest between songs, or wind with thicker wire"),
        ],
      },
    ];
  },
});
