/** Where high voltage can leave the coil: stand-off is measured from there. */
import type { Coil } from "../description/coil.ts";
import { boundsOf, topLoadOutline } from "../parts/index.ts";
import type { Metre } from "../units/si.ts";

/**
 * Greatest radius of winding and top loads, their highest point, and the middle of the top loads.
 * @returns [m], radius from the axis, heights above the ground plane
 */
export function breakoutPlace({ secondary, topload }: Coil): {
  readonly radius: Metre;
  readonly top: Metre;
  readonly middle: Metre;
} {
  const { former, wire, coating, baseHeight, length } = secondary;
  const winding = former.outerDiameter / 2 + wire.overall + (coating?.thickness ?? 0);
  const bounds = topload.map((load) => boundsOf(topLoadOutline(load)));
  const top = Math.max(baseHeight + length, ...bounds.map(({ topZ }) => topZ));
  const middle =
    bounds.length === 0
      ? top
      : (Math.max(...bounds.map(({ topZ }) => topZ)) + Math.min(...bounds.map(({ bottomZ }) => bottomZ))) / 2;
  return { radius: Math.max(winding, ...bounds.map(({ outerR }) => outerR)), top, middle };
}
