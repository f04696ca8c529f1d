/** Wheeler's two formulas of 1928, for pencil and paper. */
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Henry, Metre } from "../../units/si.ts";

/** 1 µH per inch, the unit the constants of 1928 are in. */
const microhenryPerInch = 1e-6 / 0.0254;

/**
 * Single-layer solenoid: L = a²N²/(9a + 10b) µH, a = mean radius and b = length in inches.
 *
 * @throws OutOfDomain  an argument is not positive
 * @validity  within 1 % of the current sheet where length > 0.4·diameter (`wheelerSolenoidHolds`)
 * @source    wheeler-1928
 */
export function wheelerSolenoid({ diameter, length, turns }: { diameter: Metre; length: Metre; turns: number }): Henry {
  if (!(diameter > 0 && length > 0 && turns > 0)) {
    throw new OutOfDomain("wheelerSolenoid", `needs positive sizes, got ${diameter} m, ${length} m, ${turns} turns`);
  }
  const radius = diameter / 2;
  return (microhenryPerInch * (radius * turns) ** 2) / (9 * radius + 10 * length);
}

/** Whether the winding is long enough for `wheelerSolenoid` to hold within 1 %. */
export function wheelerSolenoidHolds({ diameter, length }: { diameter: Metre; length: Metre }): boolean {
  return length > 0.4 * diameter;
}

/**
 * Flat spiral: L = a²N²/(8a + 11c) µH, a = mean radius and c = radial depth of the winding in inches.
 *
 * @param meanRadius  [m], half of inner plus outer radius
 * @param depth       [m], turns × pitch
 * @throws OutOfDomain  an argument is not positive
 * @validity  within 5 % where depth > 0.2·meanRadius (`wheelerSpiralHolds`)
 * @source    wheeler-1928
 */
export function wheelerSpiral({ meanRadius, depth, turns }: { meanRadius: Metre; depth: Metre; turns: number }): Henry {
  if (!(meanRadius > 0 && depth > 0 && turns > 0)) {
    throw new OutOfDomain("wheelerSpiral", `needs positive sizes, got ${meanRadius} m, ${depth} m, ${turns} turns`);
  }
  return (microhenryPerInch * (meanRadius * turns) ** 2) / (8 * meanRadius + 11 * depth);
}

/** Whether the spiral is deep enough for `wheelerSpiral` to hold within 5 %. */
export function wheelerSpiralHolds({ meanRadius, depth }: { meanRadius: Metre; depth: Metre }): boolean {
  return depth > 0.2 * meanRadius && depth < 2 * meanRadius;
}
