/** Fourier coefficients of the inverse distance between two circles about one axis (half-integer Legendre functions). */
import { completeEllipticInto } from "./elliptic.ts";

const pair = new Float64Array(2);
/** Above this χ the upward recurrence loses digits, and the trapezoid rule over the angle converges at once. */
const recurrenceBelow = 2;
/** Midpoints over half a turn: the error falls as (χ + √(χ² − 1))^(−2·angles), 7e-10 at χ = 2. */
const angles = 8;
/** Harmonics that the table of cosines holds. */
const mostHarmonics = 8;
const cosines = Float64Array.from({ length: mostHarmonics * angles }, (_, i) => {
  const [m, a] = [Math.floor(i / angles), i % angles];
  return Math.cos((m * Math.PI * (a + 0.5)) / angles);
});

/**
 * Writes (1/2π)∫cos(mα)/|x − x′| dα for m = 0 … into.length − 1: the potential of a ring of charge varying as cos(mα).
 *
 * @param radiusA, radiusB  [m], > 0
 * @param separation        [m], along the axis; the rings must not coincide
 * @validity  up to eight coefficients; error below 1e-9 for m ≤ 3, as a share of the first
 * @source    DLMF 14.19 with Q(−½) and Q(½) in complete elliptic integrals, recurrence DLMF 14.10.3
 */
export function toroidalHarmonics(
  { radiusA, radiusB, separation }: { radiusA: number; radiusB: number; separation: number },
  into: Float64Array,
): void {
  const count = into.length;
  const product = 2 * radiusA * radiusB;
  const squares = radiusA * radiusA + radiusB * radiusB + separation * separation;
  if (!(squares < recurrenceBelow * product)) {
    into.fill(0);
    for (let a = 0; a < angles; a++) {
      const value = 1 / (angles * Math.sqrt(squares - product * cosines[angles + a]!));
      for (let m = 0; m < count; m++) into[m]! += value * cosines[m * angles + a]!;
    }
    return;
  }
  const chi = squares / product;
  const gap = ((radiusA - radiusB) ** 2 + separation * separation) / product;
  const m = 2 / (chi + 1);
  completeEllipticInto(m, gap / (chi + 1), pair);
  const k = Math.sqrt(m);
  const scale = 1 / (Math.PI * Math.sqrt(radiusA * radiusB));
  let before = k * pair[0]!;
  let here = chi * k * pair[0]! - (2 / k) * pair[1]!;
  into[0] = scale * before;
  if (count > 1) into[1] = scale * here;
  for (let n = 1; n < count - 1; n++) {
    const next = (4 * n * chi * here - (2 * n - 1) * before) / (2 * n + 1);
    before = here;
    here = next;
    into[n + 1] = scale * here;
  }
}
