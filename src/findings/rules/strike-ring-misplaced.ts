import { primaryExtent } from "../measures.ts";
import { defineRule, setting } from "../rule.ts";
import { length, quantityText } from "../words.ts";

export const strikeRingMisplaced = defineRule({
  id: "strike-ring-misplaced",
  room: "shape",
  says: "A ring that lies lower than the primary, or well inside its outer turn, leaves turns open to strikes.",
  source: "common-practice",
  judge(context) {
    const { primary } = context.coil;
    if (primary?.strikeRing === undefined) return [];
    const { strikeRing } = primary;
    const extent = primaryExtent(primary);
    const below = extent.topZ - (strikeRing.height + strikeRing.tube / 2);
    const inside = extent.outerR - strikeRing.diameter / 2;
    const text = (path: string, value: number) => ({
      path,
      value: quantityText(context, { path, value, dimension: "length", toward: "up" }),
    });
    return [
      ...(below > 0
        ? [
            {
              severity: "fix" as const,
              path: "primary.strikeRing.height",
              what: `the strike ring lies ${length(below)} below the top of the primary`,
              expected: `its tube above ${length(extent.topZ)}`,
              evidence: ["primary.baseHeight", "primary.angle", "primary.pitch"],
              remedies: [setting(text("primary.strikeRing.height", extent.topZ + strikeRing.tube / 2 + 0.025))],
            },
          ]
        : []),
      ...(inside > 1.5 * primary.pitch
        ? [
            {
              severity: "look" as const,
              path: "primary.strikeRing.diameter",
              what: `the strike ring stands ${length(inside)} inside the primary's outer edge and leaves turns open`,
              expected: `a ring about as wide as the primary, ${length(2 * extent.outerR)}`,
              evidence: ["primary.firstTurnDiameter", "primary.turns", "primary.pitch"],
              remedies: [setting(text("primary.strikeRing.diameter", 2 * extent.outerR + 0.02))],
            },
          ]
        : []),
    ];
  },
});
