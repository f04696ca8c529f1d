/** The field on a conductor's surface, from the charge on its nodes. */
import type { Metre } from "../units/si.ts";
import { basisRow, locate, type Patch, type Spot } from "./patch.ts";
import { electricConstant } from "./vacuum.ts";

export interface SurfacePoint {
  readonly radius: Metre;
  readonly height: Metre;
  /** Normal field [V/m], signed as the charge. */
  readonly field: number;
}

/** Samples a node in the first search; the maximum is then refined to about 1e-6 of the patch. */
const samplesEachNode = 4;

/**
 * The point of greatest |field| on a patch. Its ends are left out: at an edge the field is without bound or zero, on the axis the
 * density is a quotient of two vanishing numbers that the points beside it give.
 *
 * @param charges  charge on each of the patch's nodes [C]
 * @validity  smooth surfaces; error measured below 0.1 % with the node counts of `resolution.ts`
 */
export function peakSurfaceField(patch: Patch, charges: Float64Array): SurfacePoint {
  const row = new Float64Array(patch.count);
  const spot: Spot = { r: 0, z: 0, speed: 0 };
  const fieldAt = (parameter: number): number => {
    locate(patch.stretch, parameter, spot);
    basisRow(patch, parameter, row);
    let density = 0;
    for (let j = 0; j < patch.count; j++) density += (row[j]! * charges[j]!) / patch.weights[j]!;
    return density / (2 * Math.PI * spot.r * spot.speed * electricConstant);
  };
  const count = samplesEachNode * patch.count;
  let best = 0;
  let greatest = -1;
  for (let i = 0; i < count; i++) {
    const size = Math.abs(fieldAt((i + 0.5) / count));
    if (size > greatest) {
      greatest = size;
      best = (i + 0.5) / count;
    }
  }
  const parameter = refine((t) => Math.abs(fieldAt(t)), best, 1 / count, patch.family === "closed");
  const field = fieldAt(parameter);
  return { radius: spot.r, height: spot.z, field };
}

/** Parabolas through three points, narrowed; stays inside (0, 1) on an open patch. */
function refine(size: (t: number) => number, start: number, width: number, closed: boolean): number {
  let centre = start;
  let step = width;
  for (let pass = 0; pass < 4; pass++) {
    if (!closed) step = Math.min(step, 0.5 * centre, 0.5 * (1 - centre));
    const [below, here, above] = [size(centre - step), size(centre), size(centre + step)];
    const bend = below - 2 * here + above;
    if (bend < 0) centre += Math.min(step, Math.max(-step, (0.5 * step * (below - above)) / bend));
    step *= 0.25;
  }
  return centre;
}
