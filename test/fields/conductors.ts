/** Conductors for the electrostatic tests, made of the program's own stretches. */

import { solveElectrostatics } from "../../src/fields/electrostatics.ts";
import { makePatch, type Patch } from "../../src/fields/patch.ts";
import { potentialMatrix } from "../../src/fields/potential-matrix.ts";
import { patchesOf } from "../../src/fields/resolution.ts";
import { outerStretches } from "../../src/geometry/outline-stretches.ts";
import type { Outline } from "../../src/parts/shape.ts";

export const sphere = (radius: number, height: number): Outline => [
  { kind: "arc", centre: { r: 0, z: height }, radius, from: -Math.PI / 2, to: Math.PI / 2 },
];
export const torus = ({
  majorRadius,
  tubeRadius,
  height = 0,
}: {
  majorRadius: number;
  tubeRadius: number;
  height?: number;
}): Outline => [{ kind: "arc", centre: { r: majorRadius, z: height }, radius: tubeRadius, from: 0, to: 2 * Math.PI }];
export const disc = (radius: number, height: number): Outline => [
  { kind: "line", from: { r: 0, z: height }, to: { r: radius, z: height } },
];

/** Each outline a conductor of its own, with the node counts of a real solve. */
export function patched(outlines: readonly Outline[], ground: boolean, refine = 1): Patch[][] {
  return patchesOf({
    groups: outlines.map((outline) => ({ role: "topload", stretches: outerStretches([outline]) })),
    ground,
    refine,
  });
}

/** Charge on each node at one volt, all patches at one potential; and their sum [F]. */
export function charged(patches: readonly Patch[], ground: boolean): { charges: Float64Array; capacitance: number } {
  const conductors = { winding: [], top: patches, floating: [], earthed: [] };
  const { charges, capacitance } = solveElectrostatics({ conductors, potentials: potentialMatrix(patches, ground) });
  return { charges, capacitance: capacitance[0]! };
}

export { makePatch };
