/** The tank coupled to every mode of the secondary: poles of the whole. */
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
 * links them: 1/ω² are the eigenvalues of an arrow matrix, found by bisection between the modes' own. Two loops alone (`coupledPoles`) miss what the higher modes add to the tank's
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
  const tank = tankInductance * tankCapacitance;
  const squares = modes.map(({ frequency }) => 1 / (2 * Math.PI * frequency) ** 2);
  const links = modes.map(
    ({ inductance, mutual }, n) => (mutual ** 2 / (tankInductance * inductance)) * tank * squares[n]!,
  );
  const [first, second] = [squares[0]!, squares[1] ?? 0];
  const above = first + tank + links.reduce((sum, link) => sum + Math.sqrt(link), 0);
  const pole = (from: number, to: number): Hertz =>
    1 / (2 * Math.PI * Math.sqrt(secularRoot({ tank, squares, links, from, to })));
  return { lower: pole(first, above), upper: pole(second, first) };
}

/** Between two neighbouring squares the secular function of the arrow matrix rises from −∞ to +∞, through one eigenvalue. */
function secularRoot({
  tank,
  squares,
  links,
  from,
  to,
}: {
  tank: number;
  squares: readonly number[];
  links: readonly number[];
  from: number;
  to: number;
}): number {
  let low = from;
  let high = to;
  while (high - low > 1e-15 * to) {
    const mid = 0.5 * (low + high);
    if (mid <= low || mid >= high) break;
    let value = mid - tank;
    for (let n = 0; n < squares.length; n++) value -= links[n]! / (mid - squares[n]!);
    if (value < 0) low = mid;
    else high = mid;
  }
  return 0.5 * (low + high);
}
