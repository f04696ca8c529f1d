/** Complete elliptic integrals of the first and second kind by the arithmetic-geometric mean. */
import { OutOfDomain } from "./out-of-domain.ts";

/** Below this complement the logarithmic series is exact to double precision (its next term is of order m1² ln m1). */
const logarithmicBelow = 1e-9;

/** Half-gap of the means, relative to their size, below which the next step changes nothing in double precision. */
const converged = 1e-8;

/**
 * Allocation-free kernel: writes K(m) to `into[0]` and E(m) to `into[1]`.
 *
 *   K = π / (2·agm(1, √m1)),   E = K·(1 − m/2 − Σ 2^(n−1)·c²n),   c(n+1) = c²n / (4·a(n+1))
 *
 * @param m     parameter k², 0 ≤ m < 1
 * @param m1    complementary parameter 1 − m, > 0. It is a separate argument because a caller near m = 1 knows it without cancellation.
 * @param into  receives [K, E]
 * @validity    relative error about 1e-15 for any m1 > 0; nothing is checked here
 * @source      dlmf-19.8, equations 19.8.1, 19.8.5 and 19.8.6; dlmf-19.12 for the logarithmic series
 */
export function completeEllipticInto(m: number, m1: number, into: Float64Array): void {
  if (m1 < logarithmicBelow) {
    const logarithm = Math.log(4 / Math.sqrt(m1));
    into[0] = logarithm + 0.25 * m1 * (logarithm - 1);
    into[1] = 1 + 0.5 * m1 * (logarithm - 0.5);
    return;
  }
  let arithmetic = 1;
  let geometric = Math.sqrt(m1);
  let gap = (0.5 * m) / (1 + geometric);
  let weight = 1;
  let sum = 0.5 * m;
  for (;;) {
    sum += weight * gap * gap;
    const mean = 0.5 * (arithmetic + geometric);
    if (gap < converged * mean) {
      into[0] = (0.5 * Math.PI) / mean;
      into[1] = into[0] * (1 - sum);
      return;
    }
    geometric = Math.sqrt(arithmetic * geometric);
    arithmetic = mean;
    weight *= 2;
    gap = (gap * gap) / (2 * (arithmetic + geometric));
  }
}

/**
 * Complete elliptic integrals K and E.
 *
 * @param m   parameter k² (not the modulus), 0 ≤ m < 1
 * @param m1  1 − m where the caller knows it more exactly than the subtraction would give it
 * @returns   K = ∫dθ/√(1 − m sin²θ) and E = ∫√(1 − m sin²θ)dθ over 0 … π/2
 * @throws OutOfDomain  m outside [0, 1), or m1 outside (0, 1]
 * @validity  relative error about 1e-15
 * @source    dlmf-19.8
 */
export function completeElliptic({ m, m1 = 1 - m }: { m: number; m1?: number }): { K: number; E: number } {
  if (!(m >= 0 && m1 > 0 && m1 <= 1)) {
    throw new OutOfDomain("completeElliptic", `needs 0 ≤ m < 1 and 0 < m1 ≤ 1, got m = ${m}, m1 = ${m1}`);
  }
  const pair = new Float64Array(2);
  completeEllipticInto(m, m1, pair);
  return { K: pair[0]!, E: pair[1]! };
}
