/** The tank coupled to every mode of the secondary: poles of the whole. */
import { symmetricEigen } from "../numerics/eigen.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Farad, Henry, Hertz } from "../units/si.ts";

/** One mode as a series loop, seen from the primary. */
export interface ModeLoop {
  readonly frequency: Hertz;
  readonly inductance: Henry;
  /** To the primary, weighted by the mode's current. */
  readonly mutual: Henry;
}

/**
 * The two lowest poles of the tank coupled to the modes of the secondary, without loss.
 *
 * Each loop's charge obeys L·q″ + q/C = 0 with the loops' inductances and mutuals in L; the modes are mutually orthogonal, so only the tank
 * links them. 1/ω² are the eigenvalues of C^½·L·C^½. Two loops alone (`coupledPoles`) miss what the higher modes add to the tank's
 * inductance: 0.05 % of the poles at k = 0.15, 0.3 % at k = 0.27.
 *
 * @param modes  lowest first; with twelve the poles are converged to 1e-6
 * @throws OutOfDomain  an inductance or capacitance is not positive
 * @source coupled-circuits
 */
export function systemPoles({
  tankInductance,
  tankCapacitance,
  modes,
}: {
  tankInductance: Henry;
  tankCapacitance: Farad;
  modes: readonly ModeLoop[];
}): { lower: Hertz; upper: Hertz } {
  if (!(tankInductance > 0 && tankCapacitance > 0 && modes.length > 0)) {
    throw new OutOfDomain(
      "systemPoles",
      `needs a tank and a mode, got ${tankInductance} H, ${tankCapacitance} F, ${modes.length} modes`,
    );
  }
  const size = modes.length + 1;
  const matrix = new Float64Array(size * size);
  const tankPeriod = Math.sqrt(tankInductance * tankCapacitance);
  matrix[0] = tankPeriod ** 2;
  modes.forEach(({ frequency, inductance, mutual }, k) => {
    const period = 1 / (2 * Math.PI * frequency);
    const at = k + 1;
    matrix[at * size + at] = period ** 2;
    const linked = (mutual / Math.sqrt(tankInductance * inductance)) * tankPeriod * period;
    matrix[at] = linked;
    matrix[at * size] = linked;
  });
  const { values } = symmetricEigen(matrix, size);
  const pole = (value: number): Hertz => 1 / (2 * Math.PI * Math.sqrt(value));
  return { lower: pole(values[0]!), upper: pole(values[1]!) };
}
