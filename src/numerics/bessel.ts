/** Bessel functions on the ray of the skin effect, z = x·e^(−iπ/4), as a ratio, so that nothing overflows. */
import { OutOfDomain } from "./out-of-domain.ts";

/** From here on the recessive exponential e^(−√2·x) and the remainder of Hankel's expansions are below double precision. */
const asymptoticFrom = 28;

/**
 * Allocation-free kernel: writes the complex ratio
 *
 *   F(x) = (z/2)·J0(z)/J1(z),   z = x·e^(−iπ/4),   J0(z) = ber x + i·bei x
 *
 * to `into[0]` (real part) and `into[1]` (imaginary part). F = 1 + i·x²/8 + … for small x and
 * F = (1 + i)·x/(2√2) + 1/4 + … for large x.
 *
 * @param x     ≥ 0, any size
 * @validity    relative error of each part about 1e-15; at x = 0 it writes 1 and 0
 * @source      dlmf-10.10, Gauss's continued fraction; dlmf-10.17, Hankel's expansions, for large x
 */
export function skinRatioInto(x: number, into: Float64Array): void {
  if (x >= asymptoticFrom) hankelRatioInto(x, into);
  else continuedFractionInto(x, into);
}

/**
 * The ratio (z/2)·J0(z)/J1(z) for z = x·e^(−iπ/4): the internal impedance of a round wire over its d.c. resistance
 * when x = √2·(radius / skin depth), time factor e^(+iωt).
 *
 * @param x  ≥ 0, any size
 * @throws OutOfDomain  x is negative or not finite
 * @validity  relative error of each part about 1e-15
 * @source    dlmf-10.10, dlmf-10.17
 */
export function skinRatio(x: number): { re: number; im: number } {
  if (!(x >= 0 && Number.isFinite(x)))
    throw new OutOfDomain("skinRatio", `x must be finite and not negative, got ${x}`);
  const ratio = new Float64Array(2);
  skinRatioInto(x, ratio);
  return { re: ratio[0]!, im: ratio[1]! };
}

/** F = 1 + iy/(2 + iy/(3 + iy/(4 + …))), y = x²/4. Every tail has a positive real part, so nothing cancels. */
function continuedFractionInto(x: number, into: Float64Array): void {
  const y = 0.25 * x * x;
  const terms = Math.ceil(14 + 1.7 * x);
  let re = terms;
  let im = 0;
  for (let n = terms - 1; n >= 1; n--) {
    const scale = y / (re * re + im * im);
    const tail = re;
    re = n + scale * im;
    im = scale * tail;
  }
  into[0] = re;
  into[1] = im;
}

/** F = (iz/2)·S0/S1, S_ν = Σ u^k·∏(4ν² − (2j − 1)²)/k!, u = i/(8z). */
function hankelRatioInto(x: number, into: Float64Array): void {
  const u = 1 / (8 * Math.SQRT2 * x);
  let re0 = 1;
  let im0 = 0;
  let re1 = 1;
  let im1 = 0;
  let powerRe = 1;
  let powerIm = 0;
  let c0 = 1;
  let c1 = 1;
  for (let k = 1; k <= 20; k++) {
    const odd = (2 * k - 1) ** 2;
    c0 *= -odd / k;
    c1 *= (4 - odd) / k;
    const re = u * (-powerRe - powerIm);
    powerIm = u * (powerRe - powerIm);
    powerRe = re;
    re0 += c0 * powerRe;
    im0 += c0 * powerIm;
    re1 += c1 * powerRe;
    im1 += c1 * powerIm;
  }
  const modulus = re1 * re1 + im1 * im1;
  const re = (re0 * re1 + im0 * im1) / modulus;
  const im = (im0 * re1 - re0 * im1) / modulus;
  const half = x / (2 * Math.SQRT2);
  into[0] = half * (re - im);
  into[1] = half * (re + im);
}
