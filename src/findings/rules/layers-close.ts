import { tankVoltage } from "../estimates.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, quantityText, volts } from "../words.ts";

/** Stress [V/m peak] in printed board at radio frequency: 5 % and 15 % of the least short-term strength, 20 kV/mm. Source: from memory. */
const look = 1e6;
const fix = 3e6;

export const layersClose = defineRule({
  id: "layers-close",
  room: "shape",
  says: "Two printed layers in series carry the whole tank voltage across the board where they begin; at radio frequency board holds a tenth of its rated strength.",
  source: "common-practice",
  judge(context) {
    const { primary } = context.coil;
    const tank = tankVoltage(context);
    if (primary === undefined || tank === undefined) return [];
    const { layers } = primary;
    if (layers.count < 2 || layers.connected !== "series") return [];
    const stress = tank.high / layers.gap;
    if (stress < look) return [];
    const path = "primary.layers.gap";
    return [
      {
        severity: stress >= fix ? "fix" : "look",
        path,
        what: `up to ${volts(tank.high)} peak stand across the ${length(layers.gap)} between the two layers ${tank.basis}`,
        expected: `at most ${volts(look * layers.gap)} over that thickness at radio frequency`,
        evidence: tank.evidence,
        remedies: [
          setting({
            path,
            value: quantityText(context, {
              path,
              value: tank.high / look,
              dimension: "length",
              digits: 2,
              toward: "up",
            }),
          }),
          byHand("join the layers so that neighbouring turns face each other"),
        ],
      },
    ];
  },
});
