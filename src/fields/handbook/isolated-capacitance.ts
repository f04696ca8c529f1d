/** Capacitance of single conductors alone in free space, in closed form. */
import { completeElliptic } from "../../numerics/elliptic.ts";
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Farad, Metre } from "../../units/si.ts";
import { electricConstant } from "../vacuum.ts";

/**
 * Sphere: C = 4π·ε0·a.
 *
 * @throws OutOfDomain  diameter not positive
 * @validity  exact, alone in free space
 * @source    textbooks of electrostatics
 */
export function sphereCapacitance({ diameter }: { diameter: Metre }): Farad {
  if (!(diameter > 0)) throw new OutOfDomain("sphereCapacitance", `diameter must be positive, got ${diameter} m`);
  return 2 * Math.PI * electricConstant * diameter;
}

/**
 * Torus of round section, by its series in toroidal harmonics,
 *
 *   C = 8ε0·√(R² − r²)·[Q(−½)/P(−½) + 2·Σ Q(n − ½)/P(n − ½)],   argument χ = R/r
 *
 * From the Wronskian P(ν)·Q(ν − 1) − P(ν − 1)·Q(ν) = 1/ν every ratio is a sum over products of P alone, and the double sum collapses to
 *
 *   C = 16ε0·√(R² − r²)·Σ(n ≥ 1) 1/(P(n − ½)·P(n − 3/2))
 *
 * whose terms are all positive. P(−½) and P(½) are complete elliptic integrals, the rest follows by a recurrence that is stable upward.
 *
 * @param outerDiameter  [m], over all, 2(R + r)
 * @param tubeDiameter   [m], 2r
 * @throws OutOfDomain   sizes not positive, or the hole closed (tube ≥ half of the outer diameter)
 * @validity  exact, alone in free space; relative error about 1e-14. A hole narrower than 1e-6 of the tube needs more terms than are summed
 * @source    Hicks 1881; Snow, NBS Applied Mathematics Series 19; dlmf-14.19, dlmf-14.20
 */
export function torusCapacitance({
  outerDiameter,
  tubeDiameter,
}: {
  outerDiameter: Metre;
  tubeDiameter: Metre;
}): Farad {
  const tubeRadius = tubeDiameter / 2;
  const majorRadius = outerDiameter / 2 - tubeRadius;
  if (!(tubeRadius > 0 && majorRadius - tubeRadius > 1e-6 * tubeRadius)) {
    throw new OutOfDomain(
      "torusCapacitance",
      `needs an open hole, got ${outerDiameter} m over ${tubeDiameter} m of tube`,
    );
  }
  const chi = majorRadius / tubeRadius;
  const focal = Math.sqrt((majorRadius - tubeRadius) * (majorRadius + tubeRadius));
  const growth = (majorRadius + focal) / tubeRadius;
  const lower = completeElliptic({ m: (chi - 1) / (chi + 1), m1: 2 / (chi + 1) }).K;
  const upper = completeElliptic({ m: 1 - growth ** -2, m1: growth ** -2 }).E;
  let before = (2 / Math.PI) * Math.sqrt(2 / (chi + 1)) * lower;
  let here = (2 / Math.PI) * Math.sqrt(growth) * upper;
  let sum = 0;
  for (let n = 1; n < 200_000; n++) {
    const term = 1 / (here * before);
    sum += term;
    if (term < 1e-17 * sum) break;
    const next = (2 * n * chi * here - (n - 0.5) * before) / (n + 0.5);
    before = here;
    here = next;
  }
  return 16 * electricConstant * focal * sum;
}
