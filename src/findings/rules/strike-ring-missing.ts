import { reach } from "../estimates.ts";
import { primaryExtent, reachOrigin } from "../measures.ts";
import { defineRule, setting } from "../rule.ts";
import { length, roughLength } from "../words.ts";

export const strikeRingMissing = defineRule({
  id: "strike-ring-missing",
  room: "shape",
  says: "A strike to the primary puts the secondary's energy on tank and bridge; an earthed ring above it takes the strike instead.",
  source: "common-practice",
  judge(context) {
    const { coil } = context;
    const { primary } = coil;
    const far = reach(context);
    if (primary === undefined || primary.strikeRing !== undefined || far === undefined) return [];
    const extent = primaryExtent(primary);
    const drop = reachOrigin(coil).middle - extent.topZ;
    if (far.high < drop) return [];
    const mm = (metres: number) => `${Math.round(metres * 1000)} mm`;
    return [
      {
        severity: far.low >= drop ? "fix" : "look",
        path: "primary",
        what: `the primary lies ${length(drop)} below the top load, within a reach of up to ${roughLength(far.high)} ${far.basis}, and no strike ring stands over it`,
        expected: "an earthed ring, split, above the primary's outer turn",
        evidence: far.evidence,
        remedies: [
          setting({
            path: "primary.strikeRing",
            value: `{ diameter: ${mm(2 * extent.outerR + 0.03)}, tube: 8 mm, height: ${mm(extent.topZ + 0.035)}, earthed: true, closed: false }`,
          }),
        ],
      },
    ];
  },
});
