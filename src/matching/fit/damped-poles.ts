/** How tank and secondary ring down together when the bridge is a short: two damped tones. */
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Hertz, Ratio } from "../../units/si.ts";

export interface DampedTone {
  /** At which it rings, slightly below the frequency without loss. */
  readonly frequency: Hertz;
  /** ω/2 over the decay rate of the amplitude. */
  readonly q: number;
}

const [steps, rest] = [40, 1e-14];

/**
 * The two damped poles of two coupled series resonators.
 *
 * Roots of (s² + s·ω1/Q1 + ω1²)(s² + s·ω2/Q2 + ω2²) − k²·s⁴ = 0 in the upper half-plane, by Newton's method from the roots without loss.
 *
 * @param first, second  frequency and Q of each alone; Q may be Infinity
 * @param coupling       0 ≤ k < 1
 * @returns  lower first
 * @throws OutOfDomain  a frequency or Q that is not positive, a coupling out of range
 * @source coupled-circuits
 */
export function dampedPoles({
  first,
  second,
  coupling,
}: {
  first: { readonly frequency: Hertz; readonly q: number };
  second: { readonly frequency: Hertz; readonly q: number };
  coupling: Ratio;
}): { readonly lower: DampedTone; readonly upper: DampedTone } {
  if (!(first.frequency > 0 && second.frequency > 0 && first.q > 0 && second.q > 0 && coupling >= 0 && coupling < 1)) {
    throw new OutOfDomain(
      "dampedPoles",
      `needs positive frequencies and Qs and 0 ≤ k < 1, got ${first.frequency} Hz, ${second.frequency} Hz, ${first.q}, ${second.q}, k ${coupling}`,
    );
  }
  // In units of the geometric mean, so that the coefficients stay near one.
  const unit = 2 * Math.PI * Math.sqrt(first.frequency * second.frequency);
  const w1 = (2 * Math.PI * first.frequency) / unit;
  const w2 = (2 * Math.PI * second.frequency) / unit;
  const [r1, r2] = [w1 / first.q, w2 / second.q];
  const leak = 1 - coupling ** 2;
  const coefficients = [leak, r1 + r2, w1 ** 2 + w2 ** 2 + r1 * r2, r1 * w2 ** 2 + r2 * w1 ** 2, (w1 * w2) ** 2];
  const sum = w1 ** 2 + w2 ** 2;
  const root = Math.sqrt(Math.max(0, sum ** 2 - 4 * leak * (w1 * w2) ** 2));
  const tone = (square: number, damping: number): DampedTone => {
    const { real, imaginary } = newton(coefficients, { real: -damping, imaginary: Math.sqrt(square) });
    return { frequency: (imaginary * unit) / (2 * Math.PI), q: imaginary / (-2 * real) };
  };
  const damping = (r1 + r2) / 4;
  return { lower: tone((sum - root) / (2 * leak), damping), upper: tone((sum + root) / (2 * leak), damping) };
}

function newton(coefficients: readonly number[], start: { real: number; imaginary: number }) {
  let { real, imaginary } = start;
  for (let n = 0; n < steps; n++) {
    let [p, q, dp, dq] = [0, 0, 0, 0];
    for (const coefficient of coefficients) {
      [dp, dq] = [dp * real - dq * imaginary + p, dp * imaginary + dq * real + q];
      [p, q] = [p * real - q * imaginary + coefficient, p * imaginary + q * real];
    }
    const size = dp * dp + dq * dq;
    if (!(size > 0)) break;
    const [stepReal, stepImaginary] = [(p * dp + q * dq) / size, (q * dp - p * dq) / size];
    real -= stepReal;
    imaginary -= stepImaginary;
    if (Math.hypot(stepReal, stepImaginary) < rest) break;
  }
  return { real, imaginary };
}
