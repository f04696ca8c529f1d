/** Gauss–Legendre quadrature on [0, 1]. */

export interface Rule {
  /** Nodes in (0, 1), rising. */
  readonly nodes: Float64Array;
  /** Positive weights; they sum to 1. */
  readonly weights: Float64Array;
}

const rules = new Map<number, Rule>();

/**
 * The n-point Gauss–Legendre rule moved to [0, 1], exact for polynomials of degree 2n − 1. Rules are kept once made.
 *
 * @param count  points, a whole number from 1 to 512
 * @source Newton's method on the Legendre recurrence; Abramowitz & Stegun 25.4.30
 */
export function gaussLegendre(count: number): Rule {
  const known = rules.get(count);
  if (known) return known;
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let pass = 0; pass < 100; pass++) {
      let before = 1;
      let here = x;
      for (let k = 2; k <= count; k++) {
        const next = ((2 * k - 1) * x * here - (k - 1) * before) / k;
        before = here;
        here = next;
      }
      if (count === 1) before = 1;
      slope = (count * (x * here - before)) / (x * x - 1);
      const step = here / slope;
      x -= step;
      if (Math.abs(step) < 1e-16) break;
    }
    nodes[count - 1 - i] = (1 + x) / 2;
    weights[count - 1 - i] = 1 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  rules.set(count, rule);
  return rule;
}
