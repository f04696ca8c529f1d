/** Student's distribution: how wide an interval must be when the deviation itself is estimated from a few values. */
import { OutOfDomain } from "./out-of-domain.ts";

/**
 * Half-width, in standard errors, of the interval that holds `share` of Student's distribution.
 *
 * @param share    0 < share < 1, e.g. 0.9
 * @param freedom  degrees of freedom, > 0; Infinity gives the normal distribution
 * @validity  relative error below 1e-9 for 1 ≤ freedom: the distribution function, an incomplete beta function summed as a continued
 *            fraction, is inverted by bisection
 */
export function studentHalfWidth(share: number, freedom: number): number {
  if (!(share > 0 && share < 1) || !(freedom > 0))
    throw new OutOfDomain("studentHalfWidth", `0 < share < 1 and freedom > 0 are needed, got ${share} and ${freedom}`);
  const many = Math.min(freedom, 1e6);
  let low = 0;
  let high = 1;
  while (shareWithin(high, many) < share) high *= 2;
  for (let n = 0; n < 60 && high - low > 1e-12 * high; n++) {
    const middle = (low + high) / 2;
    if (shareWithin(middle, many) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Part of Student's distribution within ±t: 1 − I_x(ν/2, ½) with x = ν/(ν + t²). */
function shareWithin(t: number, freedom: number): number {
  return 1 - incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5);
}

/** Regularised incomplete beta function by its continued fraction (modified Lentz), turned over where that converges faster. */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b)) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let fraction = d;
  for (let m = 1; m < 500; m++) {
    for (const term of [
      (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)),
      (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)),
    ]) {
      d = 1 + term * d;
      c = 1 + term / c;
      d = 1 / (Math.abs(d) < tiny ? tiny : d);
      c = Math.abs(c) < tiny ? tiny : c;
      fraction *= c * d;
    }
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return front * fraction;
}

/** Stirling's series after the argument is raised above 10; relative error below 1e-13. */
function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  for (; z < 10; z++) shift += Math.log(z);
  const inverse = 1 / (z * z);
  return (
    (z - 0.5) * Math.log(z) -
    z +
    0.5 * Math.log(2 * Math.PI) +
    (1 / 12 - (1 / 360 - (1 / 1260 - inverse / 1680) * inverse) * inverse) / z -
    shift
  );
}
