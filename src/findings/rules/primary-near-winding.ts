import { conductorExtent } from "../../parts/index.ts";
import { airDensity, tankVoltage, topVoltage } from "../estimates.ts";
import { needleGapFor, needleGapSparkover, uniformGapBreakdown } from "../laws/air-gap.ts";
import { primaryTurns, windingOuterRadius } from "../measures.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, quantityText, roughVolts } from "../words.ts";

export const primaryNearWinding = defineRule({
  id: "primary-near-winding",
  room: "shape",
  says: "A flashover from the winding to the primary puts the secondary's voltage on tank and bridge, and mains on the arc.",
  source: "aiee-needle-gap",
  judge(context) {
    const { primary } = context.coil;
    const mode = context.solution?.modes[0];
    const voltage = topVoltage(context);
    if (primary === undefined || mode === undefined || voltage === undefined) return [];
    const density = airDensity(context);
    const tank = tankVoltage(context)?.high ?? 0;
    const { along, across } = conductorExtent(primary.conductor);
    const half = Math.max(along, across) / 2;
    const surface = windingOuterRadius(context.coil);
    const { baseHeight, length: long } = context.coil.secondary;
    let worst = { use: 0, gap: 0, volts: 0, at: 0 };
    for (const turn of primaryTurns(primary)) {
      for (let node = 0; node < mode.height.length; node++) {
        const height = mode.height[node] ?? 0;
        // Higher up it is the streamers that may reach the primary; the strike ring answers for those.
        if (height > baseHeight + long / 4) break;
        const gap = Math.hypot(turn.radius - surface, turn.height - height) - half;
        if (gap <= 0) continue;
        const volts = Math.abs(mode.voltage[node] ?? 0) * voltage.high + tank;
        const use = volts / needleGapSparkover({ gap, density });
        if (use > worst.use) worst = { use, gap, volts, at: height };
      }
    }
    if (worst.use < 1) return [];
    const smooth = uniformGapBreakdown({ gap: worst.gap, density });
    const needed = needleGapFor({ volts: worst.volts, density });
    const path = "primary.firstTurnDiameter";
    return [
      {
        severity: worst.volts > smooth ? "stop" : "fix",
        path,
        what: `${length(worst.gap)} of air lie between the primary and the winding at ${length(worst.at)}, with up to ${roughVolts(worst.volts)} across them ${voltage.basis}`,
        expected: `that gap holds ${roughVolts(worst.volts / worst.use)} between points and ${roughVolts(smooth)} between smooth surfaces; points need ${length(needed)}`,
        evidence: [...voltage.evidence, "secondary.former.outerDiameter", "primary.baseHeight"],
        remedies: [
          setting({
            path,
            value: quantityText(context, {
              path,
              value: primary.firstTurnDiameter + 2 * 1.05 * (needed - worst.gap),
              dimension: "length",
              toward: "up",
            }),
          }),
          byHand("lower the primary, or put a sheet of solid insulation between them"),
        ],
      },
    ];
  },
});
