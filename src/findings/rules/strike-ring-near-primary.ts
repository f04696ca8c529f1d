import { conductorExtent } from "../../parts/index.ts";
import { primaryTurns } from "../measures.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, quantityText } from "../words.ts";

const least = 0.015;

export const strikeRingNearPrimary = defineRule({
  id: "strike-ring-near-primary",
  room: "shape",
  says: "A strike to a ring close to the primary jumps on to it.",
  source: "common-practice",
  judge(context) {
    const { primary } = context.coil;
    if (primary?.strikeRing === undefined) return [];
    const { strikeRing, conductor } = primary;
    const { along, across } = conductorExtent(conductor);
    const half = Math.max(along, across) / 2;
    const gap =
      Math.min(
        ...primaryTurns(primary).map((turn) =>
          Math.hypot(turn.radius - strikeRing.diameter / 2, turn.height - strikeRing.height),
        ),
      ) -
      half -
      strikeRing.tube / 2;
    if (gap >= least) return [];
    const path = "primary.strikeRing.height";
    return [
      {
        severity: "fix",
        path,
        what: `${length(Math.max(0, gap))} lie between the strike ring and the nearest turn of the primary`,
        expected: `${length(least)} or more`,
        evidence: ["primary.strikeRing.diameter", "primary.pitch", "primary.firstTurnDiameter"],
        remedies: [
          setting({
            path,
            value: quantityText(context, {
              path,
              value: Math.max(...primaryTurns(primary).map((t) => t.height)) + half + strikeRing.tube / 2 + 1.3 * least,
              dimension: "length",
              toward: "up",
            }),
          }),
          byHand("use a wider ring"),
        ],
      },
    ];
  },
});
