import { burstsThinned } from "../bursts.ts";
import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes } from "../words.ts";

/** Part of the continuous rating up to which a switch is planned. */
const planned = 0.7;

export const switchCurrentContinuous = defineRule({
  id: "switch-current-continuous",
  room: "driver",
  says: "Leads and bond wires of a switch carry the effective current for as long as the programme lasts.",
  source: "common-practice",
  needs: ["burst.rmsPrimaryCurrent"],
  judge(context) {
    const { bridge } = context.coil;
    const found = greatest(context, "burst.rmsPrimaryCurrent");
    if (bridge === undefined || found === undefined) return [];
    const { current } = bridge.switch;
    // Upper and lower side carry one half-wave each.
    const each = (whole: number) => whole / Math.SQRT2;
    const most = each(found.most.value);
    const severity = graded({ now: each(found.now.value), most }, { look: planned * current, fix: current });
    if (severity === undefined) return [];
    return [
      {
        severity,
        path: "bridge.switch.current",
        what: `each side of the bridge carries ${amperes(most)} effective ${found.basis}; its continuous rating is ${amperes(current)}`,
        expected: `at most ${amperes(planned * current)}, seven tenths of the rating`,
        evidence: [...found.evidence, "interrupter.rate"],
        remedies: [...burstsThinned(context, ((planned * current) / most) ** 2), byHand("use larger switches")],
      },
    ];
  },
});
