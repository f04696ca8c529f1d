import { airDensity, tankVoltage } from "../estimates.ts";
import { uniformGapBreakdown } from "../laws/air-gap.ts";
import { primaryGap } from "../measures.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, quantityText, volts } from "../words.ts";

/** Share of the uniform-field law that edges and dust leave of a small gap. */
const usable = 0.4;

export const primaryTurnsClose = defineRule({
  id: "primary-turns-close",
  room: "shape",
  says: "Neighbouring turns of the primary share the tank's voltage; a gap too small for their part of it arcs.",
  source: "uniform-field-air",
  judge(context) {
    const { primary } = context.coil;
    const tank = tankVoltage(context);
    if (primary === undefined || tank === undefined) return [];
    const gap = primaryGap(primary);
    if (gap <= 0) return [];
    const inSeries = primary.tap * (primary.layers.connected === "series" ? primary.layers.count : 1);
    const turn = tank.high / inSeries;
    const holds = usable * uniformGapBreakdown({ gap, density: airDensity(context) });
    if (turn < holds) return [];
    const path = "primary.pitch";
    const wider = primary.pitch + (turn / holds - 1) * gap;
    return [
      {
        severity: turn > holds / usable ? "stop" : "fix",
        path,
        what: `up to ${volts(turn)} peak stand between neighbouring turns, ${length(gap)} apart, ${tank.basis}`,
        expected: `at most ${volts(holds)} over that gap, four tenths of what a uniform field holds`,
        evidence: [...tank.evidence, "primary.conductor", "primary.tap"],
        remedies: [
          setting({
            path,
            value: quantityText(context, { path, value: wider, dimension: "length", digits: 2, toward: "up" }),
          }),
          byHand("insulate the turns from each other"),
        ],
      },
    ];
  },
});
