/** How the current of two coupled resonators answers a step of the bridge, and what that answer tells of the pair. */
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { dampedPoles } from "../fit/damped-poles.ts";

/** Tank and secondary, each alone with the other open. */
export interface CoupledPair {
  /** Angular frequencies, per value or per second. */
  readonly tank: number;
  readonly secondary: number;
  readonly coupling: number;
  readonly tankQ: number;
  readonly secondaryQ: number;
}

/** Σ Re((real + i·imaginary)·exp((−decay + i·angular)·t)) over both poles, lower first. */
export interface StepResponse {
  readonly poles: readonly DampedPole[];
  readonly real: readonly number[];
  readonly imaginary: readonly number[];
}

/**
 * The tank's current after a step of the bridge, in units of the step over ω1·L1.
 *
 * With r = ω/Q the loops are L1·(s² + r1·s + ω1²)·I1 + M·s²·I2 = s·V and M·s²·I1 + L2·(s² + r2·s + ω2²)·I2 = 0, so that
 *
 *   I1 = V·s·(s² + r2·s + ω2²) / (L1·[(s² + r1·s + ω1²)(s² + r2·s + ω2²) − k²·s⁴]),
 *
 * and for V = 1/s each pole p has the amplitude (p² + r2·p + ω2²) / (L1·(1 − k²)·∏(p − other poles)), twice its real part for the pair.
 *
 * @source coupled-circuits
 */
export function stepResponse({ tank, secondary, coupling, tankQ, secondaryQ }: CoupledPair): StepResponse {
  const turn = 2 * Math.PI;
  const { lower, upper } = dampedPoles({
    first: { frequency: tank / turn, q: tankQ },
    second: { frequency: secondary / turn, q: secondaryQ },
    coupling,
  });
  const poles = [lower, upper].map(({ frequency, q }) => ({
    decay: (Math.PI * frequency) / q,
    angular: turn * frequency,
  }));
  const loss = secondary / secondaryQ;
  const amplitudes = poles.map(({ decay, angular }, n) => {
    const other = poles[1 - n]!;
    // p² + r2·p + ω2² over 2i·Im(p) times (p − q)(p − q*), q the other pole.
    const above = {
      re: decay ** 2 - angular ** 2 - loss * decay + secondary ** 2,
      im: (loss - 2 * decay) * angular,
    };
    const apart = other.decay - decay;
    const product = { re: apart ** 2 - angular ** 2 + other.angular ** 2, im: 2 * apart * angular };
    const below = { re: -2 * angular * product.im, im: 2 * angular * product.re };
    const size = ((below.re ** 2 + below.im ** 2) * (1 - coupling ** 2)) / (2 * tank);
    return {
      real: (above.re * below.re + above.im * below.im) / size,
      imaginary: (above.im * below.re - above.re * below.im) / size,
    };
  });
  return { poles, real: amplitudes.map(({ real }) => real), imaginary: amplitudes.map(({ imaginary }) => imaginary) };
}

/**
 * Tank and coupling from both poles and the secondary's own frequency, without loss.
 *
 * Sum and product of the poles' squares are (ω1² + ω2²)/(1 − k²) and ω1²·ω2²/(1 − k²). With S and P for them
 *
 *   1 − k² = ω2⁴ / (S·ω2² − P),   k² = (ω2² − ωa²)(ωb² − ω2²) / (S·ω2² − P),   ω1² = P·(1 − k²) / ω2².
 *
 * @returns  undefined where the secondary does not stand between the poles
 * @validity  no loss; Q above 30 moves k by less than 1e-3
 * @source coupled-circuits
 */
export function pairOfPoles({
  lower,
  upper,
  secondary,
}: {
  lower: number;
  upper: number;
  secondary: number;
}): { readonly tank: number; readonly coupling: number } | undefined {
  const [a, b, own] = [lower ** 2, upper ** 2, secondary ** 2];
  if (!(own > a && own < b)) return undefined;
  const rest = (a + b) * own - a * b;
  return { tank: Math.sqrt((a * b * own) / rest), coupling: Math.sqrt(((own - a) * (b - own)) / rest) };
}

/**
 * The secondary's own frequency from both poles and the sizes of the tank current's answer to a step, without loss: the admittance that the
 * bridge sees is zero there.
 *
 * The sizes are (ω2² − ωa²)/(ωa·(ωb² − ωa²)) and (ωb² − ω2²)/(ωb·(ωb² − ωa²)), so that ω2² is the mean of the poles' squares, each weighted
 * by the other's size times frequency.
 *
 * @returns  undefined where the sizes have not one sign
 */
export function secondaryOf({
  lower,
  upper,
  sizes: [atLower, atUpper],
}: {
  lower: number;
  upper: number;
  sizes: readonly [number, number];
}): number | undefined {
  const [a, b] = [atLower * lower, atUpper * upper];
  return a * b > 0 ? Math.sqrt((b * lower ** 2 + a * upper ** 2) / (a + b)) : undefined;
}
