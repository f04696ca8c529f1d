/** How many nodes each stretch of a conductor gets: enough for its own shape, and for the narrowest gap to its neighbours. */
import { pointOn, type Stretch, stretchLength } from "../geometry/stretch.ts";
import { makePatch, type Patch } from "./patch.ts";

/** What a stretch belongs to; the least number of nodes depends on it. */
export type Role = "winding" | "topload" | "primary" | "ring" | "room" | "standing";

/** Least nodes a stretch (of a closed circle, or of an open one). Halving them moves f1 of the reference coils by under 1e-5. */
const least: Readonly<Record<Role, { readonly closed: number; readonly open: number }>> = {
  winding: { closed: 32, open: 32 },
  topload: { closed: 32, open: 12 },
  primary: { closed: 8, open: 8 },
  ring: { closed: 8, open: 8 },
  room: { closed: 16, open: 16 },
  standing: { closed: 4, open: 6 },
};
/** Greatest node spacing, in gaps to the nearest other conductor. */
const spacingPerGap = 1.2;
/** Most nodes of a stretch: beyond, a narrow gap is the business of the findings, not of f1. */
const most: Readonly<Record<Role, number>> = {
  winding: 72,
  topload: 64,
  primary: 14,
  ring: 20,
  room: 40,
  standing: 16,
};

export interface Group {
  readonly role: Role;
  readonly stretches: readonly Stretch[];
}

/**
 * Patches for each group, in the groups' order.
 *
 * @param refine  multiplies every count; 1 is the accuracy that the tests measure
 */
export function patchesOf({
  groups,
  ground,
  refine = 1,
}: {
  groups: readonly Group[];
  ground: boolean;
  refine?: number;
}): Patch[][] {
  const outlines = groups.map((group) => group.stretches.map(sampled));
  return groups.map((group, g) =>
    group.stretches.map((stretch, s) => {
      const own = outlines[g]![s]!;
      let gap = ground && group.role !== "room" ? Math.min(...own.map((p) => p.z)) : Number.POSITIVE_INFINITY;
      outlines.forEach((others, o) => {
        // Wall and ceiling may meet: one earthed surface, with no field in the corner between them.
        if (o === g || (group.role === "room" && groups[o]!.role === "room")) return;
        for (const other of others) gap = Math.min(gap, distance(own, other));
      });
      const wanted = stretchLength(stretch) / (spacingPerGap * gap);
      return makePatch(
        stretch,
        Math.round(refine * Math.min(most[group.role], Math.max(leastFor(group.role, stretch), Math.ceil(wanted)))),
      );
    }),
  );
}

function leastFor(role: Role, { piece, starts, ends }: Stretch): number {
  const { closed, open } = least[role];
  if (piece.kind === "line") return role === "winding" ? windingNodes(piece) : open;
  const turn = Math.abs(piece.to - piece.from) / (2 * Math.PI);
  const round =
    starts === "smooth" && ends === "smooth" && turn > 0.999 ? closed * tightness(piece) : open + closed * turn * 0.5;
  return Math.ceil(round);
}

/** A long thin winding needs more nodes to follow what stands near it. */
function windingNodes(piece: { from: { r: number; z: number }; to: { r: number; z: number } }): number {
  const slender = Math.abs(piece.to.z - piece.from.z) / (2 * piece.from.r);
  return Math.ceil(least.winding.open + Math.max(0, 2 * (slender - 4)));
}

/** A ring whose hole nearly closes has a field that changes fast across the hole. */
function tightness({ centre, radius }: { centre: { r: number }; radius: number }): number {
  const hole = centre.r / radius - 1;
  return hole < 0.5 ? Math.min(2, Math.sqrt(0.5 / Math.max(hole, 0.02))) : 1;
}

interface Sample {
  readonly r: number;
  readonly z: number;
}

/** Points along a stretch, close enough for the narrowest gap within about a tenth of its own length. */
function sampled({ piece, from, to }: Stretch): Sample[] {
  return Array.from({ length: 17 }, (_, i) => pointOn(piece, from + ((to - from) * i) / 16));
}

function distance(a: readonly Sample[], b: readonly Sample[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (const p of a) for (const q of b) best = Math.min(best, (p.r - q.r) ** 2 + (p.z - q.z) ** 2);
  return Math.sqrt(best);
}
