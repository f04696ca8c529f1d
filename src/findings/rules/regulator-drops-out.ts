import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { volts } from "../words.ts";

export const regulatorDropsOut = defineRule({
  id: "regulator-drops-out",
  room: "driver",
  says: "A regulator that runs out of voltage at low mains hums into the driver's logic, and gates that are half driven burn switches.",
  source: "ideal-rectifier",
  needs: ["control.trough"],
  judge(context) {
    const control = context.coil.supply?.control;
    if (control === undefined) return [];
    return control.rails.flatMap((rail, index) => {
      const id = `control.rail.${index + 1}.headroom`;
      const headroom = context.figure(id);
      if (headroom === undefined || (headroom.low ?? headroom.value) > 0) return [];
      const short = -(headroom.low ?? headroom.value);
      return [
        {
          severity: headroom.value < 0 ? ("fix" as const) : ("look" as const),
          path: `supply.control.rails.${index}.volts`,
          what: `at low mains and full load the reservoir falls to ${volts(context.value("control.trough"))}, and the rail of ${volts(rail.volts)} needs ${volts(rail.volts + rail.dropout)}`,
          expected: `a trough of ${volts(rail.volts + rail.dropout + 1)} or more`,
          evidence: [id, `supply.control.rails.${index}.dropout`],
          remedies: [
            setTo(context, {
              path: "supply.control.transformer",
              // At low mains the reservoir gains 0.9·√2 volts for each volt of the transformer.
              value: control.transformer + (short + 0.5) / (0.9 * Math.SQRT2),
              dimension: "voltage",
              digits: 2,
              toward: "up",
            }),
            byHand("use a regulator of lower dropout, or a larger reservoir"),
          ],
        },
      ];
    });
  },
});
