/**
 * Roots of a polynomial on [0, 1], none missed: the Bernstein coefficients bound the polynomial from both sides, and their
 * changes of sign bound the number of roots (0 means none, 1 means exactly one).
 *
 * A polynomial is the first `degree + 1` entries of an array, lowest power first.
 */

/** Greatest degree that the functions here take. */
export const greatestDegree = 30;

/** Halvings of [0, 1] after which two roots that still stick together are taken for a touch, not a crossing. */
const deepest = 40;

/** Degree to which a polynomial is cut, with a bound for the rest, in the cheap test that settles most cases. */
const shortDegree = 8;

/** Ratios C(i, j)/C(n, j) by which the coefficient of t^j enters Bernstein coefficient i; [degree][i·(degree + 1) + j]. */
const ratios: readonly Float64Array[] = Array.from({ length: greatestDegree + 1 }, (_, n) => {
  const table = new Float64Array((n + 1) * (n + 1));
  for (let i = 0; i <= n; i++) {
    let ratio = 1;
    for (let j = 0; j <= i; j++) {
      table[i * (n + 1) + j] = ratio;
      ratio *= (i - j) / (n - j);
    }
  }
  return table;
});

/** One row of Bernstein coefficients for each depth of halving, so that nothing is allocated while searching. */
const rows: readonly Float64Array[] = Array.from({ length: deepest + 2 }, () => new Float64Array(greatestDegree + 1));
const deflated = new Float64Array(greatestDegree + 1);

/** Value at t by Horner's rule. */
export function polynomialAt(p: Float64Array, degree: number, t: number): number {
  let sum = p[degree]!;
  for (let k = degree - 1; k >= 0; k--) sum = sum * t + p[k]!;
  return sum;
}

/**
 * The first t in [0, 1] at which the polynomial goes from positive to negative.
 *
 * Leading coefficients that are nothing but rounding (below `noise` times the sum of all) count as a root at t = 0 which the
 * search leaves out: the sign of the first coefficient that counts then says on which side the polynomial begins.
 *
 * @param degree  0 to 30
 * @param noise   relative size of a coefficient that is taken for zero at the start, e.g. 1e-13
 * @returns       t, 0 where the polynomial begins negative, Infinity where there is no such crossing
 * @validity  crossings nearer together than about 1e-12 may be taken for a touch and left out
 */
export function firstDescent(p: Float64Array, degree: number, noise: number): number {
  let lowest = p[0]!;
  for (let k = 1; k <= degree; k++) if (p[k]! < 0) lowest += p[k]!;
  if (lowest > 0) return Number.POSITIVE_INFINITY;

  let size = 0;
  for (let k = 0; k <= degree; k++) size += Math.abs(p[k]!);
  let skipped = 0;
  while (skipped <= degree && Math.abs(p[skipped]!) <= noise * size) skipped++;
  if (skipped > degree) return Number.POSITIVE_INFINITY;
  if (p[skipped]! < 0) return 0;

  let q = p;
  let n = degree;
  if (skipped > 0) {
    for (let k = skipped; k <= degree; k++) deflated[k - skipped] = p[k]!;
    q = deflated;
    n = degree - skipped;
  }
  if (surelyKeepsSign(q, n, 1)) return Number.POSITIVE_INFINITY;
  fillBernstein(q, n, rows[0]!);
  return descentWithin(q, n, 0, 0, 1);
}

/**
 * All t in (0, 1) at which the polynomial changes sign, rising. Even roots (touches) are left out.
 *
 * @param degree  0 to 30
 * @param found   takes the roots; must hold `degree` entries
 * @returns       how many were found
 */
export function signChanges(p: Float64Array, degree: number, found: Float64Array): number {
  const first = p[0]!;
  let rest = 0;
  for (let k = 1; k <= degree; k++) rest += Math.abs(p[k]!);
  if (Math.abs(first) > rest) return 0;
  if (first !== 0 && surelyKeepsSign(p, degree, first > 0 ? 1 : -1)) return 0;
  fillBernstein(p, degree, rows[0]!);
  signBefore = 0;
  return changesWithin(p, degree, 0, 0, 1, found, 0);
}

/**
 * Whether `sign` times the polynomial, cut to a short degree and lowered by a bound for the rest, has only positive Bernstein
 * coefficients.
 */
function surelyKeepsSign(p: Float64Array, degree: number, sign: 1 | -1): boolean {
  const n = Math.min(degree, shortDegree);
  let rest = 0;
  for (let k = n + 1; k <= degree; k++) rest += Math.abs(p[k]!);
  const table = ratios[n]!;
  for (let i = n; i >= 0; i--) {
    let b = 0;
    const row = i * (n + 1);
    for (let j = 0; j <= i; j++) b += table[row + j]! * p[j]!;
    if (!(sign * b > rest)) return false;
  }
  return true;
}

function fillBernstein(p: Float64Array, degree: number, into: Float64Array): void {
  const table = ratios[degree]!;
  for (let i = 0; i <= degree; i++) {
    let b = 0;
    const row = i * (degree + 1);
    for (let j = 0; j <= i; j++) b += table[row + j]! * p[j]!;
    into[i] = b;
  }
}

/** Sign of the first coefficient from `start` in steps of `step` that is not zero. */
function signFrom(b: Float64Array, degree: number, start: number, step: 1 | -1): number {
  for (let i = start; i >= 0 && i <= degree; i += step) if (b[i] !== 0) return b[i]! > 0 ? 1 : -1;
  return 0;
}

function variations(b: Float64Array, degree: number): number {
  let count = 0;
  let before = 0;
  for (let i = 0; i <= degree; i++) {
    const here = b[i]!;
    if (here === 0) continue;
    if (before !== 0 && here > 0 !== before > 0) count++;
    before = here;
  }
  return count;
}

/** Splits row `depth` at its middle: the left half into row `depth + 1`, the right half stays (de Casteljau). */
function halve(depth: number, degree: number): void {
  const right = rows[depth]!;
  const left = rows[depth + 1]!;
  left[0] = right[0]!;
  for (let k = 1; k <= degree; k++) {
    for (let i = 0; i <= degree - k; i++) right[i] = (right[i]! + right[i + 1]!) / 2;
    left[k] = right[0]!;
  }
}

function descentWithin(p: Float64Array, degree: number, depth: number, from: number, to: number): number {
  const b = rows[depth]!;
  const count = variations(b, degree);
  // All to the left is positive, so a piece that begins negative has the crossing on its very edge.
  if (signFrom(b, degree, 0, 1) < 0) return from;
  if (count === 0) return Number.POSITIVE_INFINITY;
  if (count === 1) return bracketed(p, degree, from, to, 1);
  if (depth >= deepest) return Number.POSITIVE_INFINITY;
  const middle = (from + to) / 2;
  halve(depth, degree);
  const left = descentWithin(p, degree, depth + 1, from, middle);
  if (left !== Number.POSITIVE_INFINITY) return left;
  rows[depth + 1]!.set(b.subarray(0, degree + 1));
  return descentWithin(p, degree, depth + 1, middle, to);
}

/** Sign of the polynomial at the right end of what `changesWithin` has searched. */
let signBefore = 0;

function changesWithin(
  p: Float64Array,
  degree: number,
  depth: number,
  from: number,
  to: number,
  found: Float64Array,
  already: number,
): number {
  const b = rows[depth]!;
  const count = variations(b, degree);
  if (count <= 1 || depth >= deepest) {
    const begins = signFrom(b, degree, 0, 1);
    let known = already;
    if (begins * signBefore < 0) found[known++] = from;
    if (count === 1) found[known++] = bracketed(p, degree, from, to, begins);
    const ends = signFrom(b, degree, degree, -1);
    if (ends !== 0) signBefore = ends;
    return known;
  }
  const middle = (from + to) / 2;
  halve(depth, degree);
  const left = changesWithin(p, degree, depth + 1, from, middle, found, already);
  rows[depth + 1]!.set(b.subarray(0, degree + 1));
  return changesWithin(p, degree, depth + 1, middle, to, found, left);
}

/** The one root of `sense`·p in [from, to], where it falls through zero: Newton's method kept inside the bracket. */
function bracketed(p: Float64Array, degree: number, from: number, to: number, sense: number): number {
  let low = from;
  let high = to;
  let t = (from + to) / 2;
  for (let pass = 0; pass < 80; pass++) {
    let value = p[degree]!;
    let slope = 0;
    for (let k = degree - 1; k >= 0; k--) {
      slope = slope * t + value;
      value = value * t + p[k]!;
    }
    value *= sense;
    slope *= sense;
    if (value === 0) return t;
    if (value > 0) low = t;
    else high = t;
    let next = t - value / slope;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - t) <= 1e-15) return next;
    t = next;
  }
  return t;
}
