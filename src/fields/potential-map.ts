/** The potential in space around charged patches. */
import { basisRow, locate, type Patch, type Spot } from "./patch.ts";
import { meanInverseDistance } from "./ring-charge.ts";
import { coulombFactor } from "./vacuum.ts";

/** Rings that stand for the charge of each node, and their thickness in ring spacings, which keeps a point on one from being infinite. */
const ringsEachNode = 2;
const thickness = 0.25;

/** Charged rings with a thickness, in flat arrays. */
export interface ChargedRings {
  readonly radius: Float64Array;
  readonly height: Float64Array;
  /** [C] */
  readonly charge: Float64Array;
  /** Square of the least distance counted [m²]. */
  readonly softening: Float64Array;
}

/**
 * Spreads the charge of every node over rings closer together, by the patch's own basis.
 *
 * @param charges  on every node, in the order of the patches [C]
 */
export function chargedRings(patches: readonly Patch[], charges: Float64Array): ChargedRings {
  const count = patches.reduce((sum, patch) => sum + patch.count * ringsEachNode, 0);
  const rings = {
    radius: new Float64Array(count),
    height: new Float64Array(count),
    charge: new Float64Array(count),
    softening: new Float64Array(count),
  };
  const spot: Spot = { r: 0, z: 0, speed: 0 };
  let at = 0;
  let first = 0;
  for (const patch of patches) {
    const points = patch.count * ringsEachNode;
    const row = new Float64Array(patch.count);
    for (let i = 0; i < points; i++, at++) {
      const parameter = (i + 0.5) / points;
      locate(patch.stretch, parameter, spot);
      basisRow(patch, parameter, row);
      let density = 0;
      for (let j = 0; j < patch.count; j++) density += (row[j]! * charges[first + j]!) / patch.weights[j]!;
      rings.radius[at] = spot.r;
      rings.height[at] = spot.z;
      rings.charge[at] = density / points;
      rings.softening[at] = ((thickness * spot.speed) / points) ** 2;
    }
    first += patch.count;
  }
  return rings;
}

/**
 * Potential [V] at a point above the earthed plane.
 *
 * @validity within about 1 % further than a ring spacing from the surface; nearer it is rounded off
 */
export function potentialAt(
  { radius, height, charge, softening }: ChargedRings,
  point: { r: number; z: number },
): number {
  let sum = 0;
  for (let i = 0; i < charge.length; i++) {
    const down = point.z - height[i]!;
    const up = point.z + height[i]!;
    const soft = softening[i]!;
    const direct = meanInverseDistance(point.r, radius[i]!, Math.sqrt(down * down + soft));
    sum += charge[i]! * (direct - meanInverseDistance(point.r, radius[i]!, Math.sqrt(up * up + soft)));
  }
  return coulombFactor * sum;
}
