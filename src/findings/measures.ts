/** Lengths that several rules read off the drawing. All in metres. */
import type { Coil, Primary, TopLoad } from "../description/coil.ts";
import {
  boundsOf,
  conductorExtent,
  conductorOutline,
  type Ring,
  rings,
  topLoadKind,
  topLoadOutline,
  unusedRings,
} from "../parts/index.ts";
import type { Metre } from "../units/si.ts";

/** Height of the winding's upper end above the ground plane. */
export const windingTop = ({ secondary: { baseHeight, length } }: Coil): Metre => baseHeight + length;

/** Outer radius of the winding with its enamel and coating. */
export const windingOuterRadius = ({ secondary: { former, wire, coating } }: Coil): Metre =>
  former.outerDiameter / 2 + wire.overall + (coating?.thickness ?? 0);

export type Extent = ReturnType<typeof boundsOf>;

const together = (extents: readonly Extent[]): Extent => ({
  innerR: Math.min(...extents.map((e) => e.innerR)),
  outerR: Math.max(...extents.map((e) => e.outerR)),
  bottomZ: Math.min(...extents.map((e) => e.bottomZ)),
  topZ: Math.max(...extents.map((e) => e.topZ)),
});

/** Extent of one top load. */
export const extentOf = (load: TopLoad): Extent => boundsOf(topLoadOutline(load));

/** Extent of all top loads together; undefined where there is none. */
export const topLoadExtent = ({ topload }: Coil): Extent | undefined =>
  topload.length === 0 ? undefined : together(topload.map(extentOf));

/** Path of a key of a top load, by its number from 0: `topload.0.toroid.height`. */
export const topLoadPath = ({ topload }: Coil, index: number, key?: string): string => {
  const load = topload[index];
  return ["topload", String(index), ...(load === undefined ? [] : [topLoadKind(load)]), ...(key ? [key] : [])].join(
    ".",
  );
};

/** Where high voltage can leave the coil: its greatest radius, its highest point, and the middle of the top load. */
export function reachOrigin(coil: Coil): { readonly radius: Metre; readonly top: Metre; readonly middle: Metre } {
  const load = topLoadExtent(coil);
  const top = Math.max(windingTop(coil), load?.topZ ?? 0);
  return {
    radius: Math.max(windingOuterRadius(coil), load?.outerR ?? 0),
    top,
    middle: load === undefined ? top : (load.topZ + load.bottomZ) / 2,
  };
}

/** Every turn of the primary, in circuit or not, in both layers. */
export const primaryTurns = (primary: Primary): readonly Ring[] => [...rings(primary), ...unusedRings(primary)];

/** Extent of the primary's conductor. */
export function primaryExtent(primary: Primary): Extent {
  const { conductor, angle } = primary;
  return together(primaryTurns(primary).map((turn) => boundsOf(conductorOutline(conductor, { ...turn, angle }))));
}

/** Air between neighbouring turns of the primary. */
export const primaryGap = ({ pitch, conductor }: Primary): Metre => pitch - conductorExtent(conductor).along;
