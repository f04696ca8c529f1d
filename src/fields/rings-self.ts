/** Self-inductance of one turn: a ring, or the arc of a ring that a tap leaves in circuit. */

import type { Conductor } from "../description/coil.ts";
import { gaussLegendre } from "../numerics/gauss.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Henry, Metre } from "../units/si.ts";
import { magneticConstant } from "./vacuum.ts";

/** `external`: the current flows on the surface, as at radio frequency. `internal`: it fills the section, as at d.c. */
export type Flux = "external" | "internal";

/**
 * Radius of the thin current tube that has the same self-inductance as a round conductor: the wire's own radius for external
 * flux, e^(−1/4) of it where the flux inside a uniformly filled section counts too (−1.75 in place of −2 in Maxwell's bracket).
 *
 * @throws OutOfDomain  the diameter is not positive
 * @source round-wire-ring; the mean distance of a filled circle from itself, e^(−1/4)·r, Maxwell's Treatise art. 692 (from memory)
 */
export function equivalentRadiusOfRound({ diameter, flux }: { diameter: Metre; flux: Flux }): Metre {
  if (!(diameter > 0)) throw new OutOfDomain("equivalentRadiusOfRound", `diameter must be positive, got ${diameter} m`);
  return flux === "external" ? diameter / 2 : (diameter / 2) * Math.exp(-0.25);
}

/**
 * The same for a flat trace: the geometric mean distance of a rectangle from itself, 0.2235·(width + thickness).
 *
 * @validity  uniform current in the trace; within 0.2 % of the exact mean distance for any ratio of the sides. At radio frequency the current
 *            moves to the edges: a five-turn spiral by this self term and filament mutuals comes out about 2 % above the solution that
 *            `traceLoss` finds at 1 MHz, and 1 % below the one it finds at audio frequency.
 * @throws OutOfDomain  a side is not positive
 * @source    flat-strip-ring; the factor 0.2235 as Rosa and Grover give it (from memory)
 */
export function equivalentRadiusOfTrace({ width, thickness }: { width: Metre; thickness: Metre }): Metre {
  if (!(width > 0 && thickness > 0)) {
    throw new OutOfDomain("equivalentRadiusOfTrace", `sides must be positive, got ${width} m and ${thickness} m`);
  }
  return 0.2235 * (width + thickness);
}

/** The equivalent radius of any conductor of the coil file at radio frequency: external flux only. */
export function equivalentRadius(conductor: Conductor): Metre {
  if ("trace" in conductor) return equivalentRadiusOfTrace(conductor.trace);
  return equivalentRadiusOfRound({ diameter: "tube" in conductor ? conductor.tube : conductor.wire, flux: "external" });
}

/**
 * Self-inductance of one turn of radius R whose conductor has the equivalent radius g, or of an arc of it.
 *
 *   full turn:  L = µ0·R·(ln(8R/g) − 2)
 *   arc 2π·s:   L = (µ0·R/2π)·∫(0 … 2πs) (2πs − ψ)·cos ψ / √(4·sin²(ψ/2) + (g/R)²) dψ, scaled by the full turn's closed form over
 *               the integral's at s = 1, so that the two meet (the factor is 1 + O(g²/R²))
 *
 * @param radius            [m], of the centre line
 * @param share             part of a full turn, 0 … 1; 0 gives 0
 * @param equivalentRadius  [m], see `equivalentRadius`
 * @returns                 [H]; for an arc its partial inductance, without the leads that close the loop
 * @throws OutOfDomain      radius or equivalent radius not positive, equivalent radius above radius/2, share outside 0 … 1
 * @validity  conductor thin against the turn: terms of order (g/R)² are left out
 * @source    round-wire-ring; Neumann's integral for the arc
 */
export function selfOfRing({
  radius,
  share = 1,
  equivalentRadius,
}: {
  radius: Metre;
  share?: number;
  equivalentRadius: Metre;
}): Henry {
  if (!(radius > 0 && equivalentRadius > 0 && equivalentRadius <= radius / 2)) {
    const got = `radius ${radius} m, equivalent radius ${equivalentRadius} m`;
    throw new OutOfDomain("selfOfRing", `needs 0 < equivalent radius ≤ radius/2, got ${got}`);
  }
  if (!(share >= 0 && share <= 1)) throw new OutOfDomain("selfOfRing", `share must lie in 0 … 1, got ${share}`);
  const whole = magneticConstant * radius * (Math.log((8 * radius) / equivalentRadius) - 2);
  if (share === 1) return whole;
  const thickness = equivalentRadius / radius;
  return (whole * arcIntegral(share, thickness)) / arcIntegral(1, thickness);
}

/** ∫(0 … Φ) (Φ − ψ)·f(ψ) dψ with f(ψ) = f(2π − ψ) = cos ψ / √(4·sin²(ψ/2) + ε²), Φ = 2π·share. */
function arcIntegral(share: number, thickness: number): number {
  const angle = 2 * Math.PI * share;
  if (share <= 0.5) return weightedArc(angle, -1, angle, thickness);
  const rest = 2 * Math.PI - angle;
  const folded = weightedArc(-rest, 1, Math.PI, thickness) - weightedArc(-rest, 1, rest, thickness);
  return weightedArc(angle, -1, Math.PI, thickness) + folded;
}

/** ∫(0 … upTo) (constant + slope·ψ)·f(ψ) dψ; ψ = ε·sinh u takes the peak at 0 away. */
function weightedArc(constant: number, slope: number, upTo: number, thickness: number): number {
  const { nodes, weights } = gaussLegendre(48);
  const range = Math.asinh(upTo / thickness);
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) {
    const angle = thickness * Math.sinh(range * nodes[i]!);
    const near = Math.hypot(angle, thickness) / Math.hypot(2 * Math.sin(angle / 2), thickness);
    sum += weights[i]! * (constant + slope * angle) * Math.cos(angle) * near;
  }
  return range * sum;
}
