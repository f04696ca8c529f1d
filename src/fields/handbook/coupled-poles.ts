/** Two inductively coupled lossless loops: where they ring, and how they beat. */
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Hertz, Second } from "../../units/si.ts";

/**
 * The two poles.
 *
 *   ω² = [ω1² + ω2² ∓ √((ω1² − ω2²)² + 4k²·ω1²·ω2²)] / [2(1 − k²)];   equal tune: f0/√(1 ± k)
 *
 * @param first, second  [Hz], each loop alone with the other open
 * @param coupling       k, −1 < k < 1
 * @throws OutOfDomain   a frequency is not positive, or |k| ≥ 1
 * @validity  lossless; with Q above 20 the poles move by less than 1e-3
 * @source    coupled-circuits
 */
export function coupledPoles({ first, second, coupling }: { first: Hertz; second: Hertz; coupling: number }): {
  lower: Hertz;
  upper: Hertz;
} {
  if (!(first > 0 && second > 0 && Math.abs(coupling) < 1)) {
    throw new OutOfDomain(
      "coupledPoles",
      `needs positive frequencies and |k| < 1, got ${first}, ${second} Hz, k = ${coupling}`,
    );
  }
  const sum = first * first + second * second;
  const difference = (first - second) * (first + second);
  const root = Math.hypot(difference, 2 * coupling * first * second);
  // The lower pole from the product of the two, which does not cancel.
  return {
    lower: first * second * Math.sqrt(2 / (sum + root)),
    upper: Math.sqrt((sum + root) / (2 * (1 - coupling * coupling))),
  };
}

/**
 * The beat of two poles: the envelope repeats after `period`; the energy that started in one loop is first gathered in the other after half
 * of that, wholly so only at equal tune.
 *
 * @throws OutOfDomain  not 0 < lower < upper
 * @validity  lossless
 * @source    coupled-circuits
 */
export function beatOfPoles({ lower, upper }: { lower: Hertz; upper: Hertz }): { period: Second; transfer: Second } {
  if (!(lower > 0 && upper > lower)) {
    throw new OutOfDomain("beatOfPoles", `needs 0 < lower < upper, got ${lower} Hz and ${upper} Hz`);
  }
  const period = 1 / (upper - lower);
  return { period, transfer: period / 2 };
}
