import { byHand, defineRule } from "../rule.ts";
import { volts, watts } from "../words.ts";

/** Heat [W] that a regulator without heatsink stands. From memory. */
const [look, fix] = [2, 10];
const highMains = 1.1;
const twoDiodes = 1.6;

export const regulatorHot = defineRule({
  id: "regulator-hot",
  room: "driver",
  says: "A linear regulator turns what lies above its rail into heat, most of it at high mains; too hot, it shuts down in the middle of a burst.",
  source: "common-practice",
  needs: ["control.load"],
  judge(context) {
    const control = context.coil.supply?.control;
    if (control === undefined) return [];
    const loaded = 1 + control.regulation * (1 - context.value("control.load") / control.current);
    const reservoir = highMains * Math.SQRT2 * control.transformer * loaded - twoDiodes;
    return control.rails.flatMap((rail, index) => {
      const heat = (reservoir - rail.volts) * rail.load;
      if (heat <= look) return [];
      return [
        {
          severity: heat > fix ? ("fix" as const) : ("look" as const),
          path: `supply.control.rails.${index}.load`,
          what: `the regulator of the ${volts(rail.volts)} rail takes up to ${watts(heat)} from a reservoir of ${volts(reservoir)} at high mains`,
          expected: `at most ${watts(look)} without a heatsink`,
          evidence: ["supply.control.transformer", "supply.control.regulation"],
          remedies: [byHand("give it a heatsink, feed it from the rail above it, or use a switching regulator")],
        },
      ];
    });
  },
});
