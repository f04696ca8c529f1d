/** Where the field on each conductor is worst, with mode 1 on the winding. */

import type { FieldSystem } from "../fields/field-solution.ts";
import type { Patch } from "../fields/patch.ts";
import { peakSurfaceField } from "../fields/surface-field.ts";
import { stretchLength } from "../geometry/stretch.ts";
import type { PeakField } from "./contract.ts";

/** One peak for the top load, for the primary and for the strike ring, where they are; the top load's first. */
export function peakFields({ system, charges }: { system: FieldSystem; charges: Float64Array }): PeakField[] {
  const starts = new Map(system.order.map((patch, p) => [patch, system.potentials.first[p]!]));
  const groups: [string, readonly Patch[]][] = [["topload", system.topPatches]];
  for (const path of ["primary", "primary.strikeRing"]) {
    groups.push([
      path,
      system.round.filter(({ conductor }) => conductor.path === path).flatMap(({ patches }) => patches),
    ]);
  }
  return groups.flatMap(([part, patches]) => {
    // A thin sheet has no finite field at its edges, so it has no peak to show.
    const smooth = patches.filter((patch) => patch.stretch.piece.kind === "arc" || patch.family !== "cosine");
    const peaks = smooth.map((patch): PeakField => {
      const from = starts.get(patch)!;
      const { radius, height, field } = peakSurfaceField(patch, charges.subarray(from, from + patch.count));
      return { part, radius, height, fieldPerVolt: Math.abs(field), curvatureRadius: curvature(patch) };
    });
    const worst = peaks.reduce<PeakField | undefined>(
      (a, b) => (a && a.fieldPerVolt >= b.fieldPerVolt ? a : b),
      undefined,
    );
    return worst ? [worst] : [];
  });
}

/** Smaller radius of curvature of the surface [m]; of a flat, its own extent, beyond which it is not flat. */
function curvature({ stretch }: Patch): number {
  return stretch.piece.kind === "arc" ? stretch.piece.radius : stretchLength(stretch);
}
