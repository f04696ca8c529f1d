/** The free decay after the drive: one damped tone or two, where it begins, and how sure its poles are. */
import { type DampedFit, type DampedPole, fitDamped } from "../../numerics/damped-fit.ts";
import { fourierTransform, powerOfTwoFrom } from "../../numerics/fft.ts";

export interface FreeDecay {
  readonly fit: DampedFit;
  /** Variance of the noise per value, as the fit sees it near its tones, and the number of values it stands on. */
  readonly variance: number;
  readonly freedom: number;
}

/** A second tone is looked for within this part of the first one's frequency. */
const reach = 0.45;
/** The second tone must take away this much more than noise does, in variances of the noise. */
const claim = 12;

/**
 * Fits one tone, and two where they are there.
 * @param values  NaN where a value does not count
 */
export function fitDecay(values: Float64Array, near: DampedPole): FreeDecay | undefined {
  const fits = oneOrTwo(values, near);
  if (fits === undefined) return undefined;
  const { single, double } = fits;
  return judged(double?.terms.every(isSureDecay(double)) ? double : single);
}

/** The same for tones that need not decay. */
export function fitSteady(values: Float64Array, near: DampedPole): FreeDecay | undefined {
  const fits = oneOrTwo(values, near);
  return fits === undefined ? undefined : judged(fits.double ?? fits.single);
}

/** The fit of one tone, and that of two where two are there. */
function oneOrTwo(values: Float64Array, near: DampedPole): { single: DampedFit; double?: DampedFit } | undefined {
  const single = fitDamped(values, [near]);
  if (single === undefined) return undefined;
  const double = leavesLine(single) ? bestOf(values, pairsNear(single, values)) : undefined;
  return double !== undefined && isTwo(single, double, values) ? { single, double } : { single };
}

/** A tone whose decay is not known at all, or that is no line, is the misfit of the other. */
function isSureDecay(fit: DampedFit): (term: DampedPole, k: number) => boolean {
  const { variance } = judged(fit);
  const size = 2 * fit.terms.length;
  return (term, k) =>
    isLine(term) && Math.sqrt(variance * fit.covariance[2 * k * (size + 1)]!) < leastSureness * term.decay;
}

/** What dies sooner is no free decay of such a coil: energy that goes back to the bus, or the drive's end. */
const leastQ = 10;

/** A tone that dies sooner may stand for the energy that goes back to the bus. */
const doubtfulQ = 30;

export const isLasting = ({ decay, angular }: DampedPole): boolean => angular > 2 * doubtfulQ * decay;

/** Falls, lasts for a while, and not for ever. */
export function isLine({ decay, angular }: DampedPole): boolean {
  return decay > 0 && angular > 2 * leastQ * decay;
}

/** The same with the number of tones given. */
export function fitTones(values: Float64Array, poles: readonly DampedPole[]): FreeDecay | undefined {
  const fit = fitDamped(values, poles);
  return fit === undefined ? undefined : judged(fit);
}

/** Steps that show which start is the best. */
const screening = 5;

function bestOf(values: Float64Array, starts: readonly (readonly DampedPole[])[]): DampedFit | undefined {
  const [only] = starts;
  if (only !== undefined && starts.length === 1) return fitDamped(values, only);
  let best: DampedFit | undefined;
  for (const start of starts) {
    const fit = fitDamped(values, start, { mostSteps: screening });
    if (fit !== undefined && (best === undefined || fit.squares < best.squares)) best = fit;
  }
  return best === undefined || best.converged ? best : fitDamped(values, best.terms);
}

/** False where what the one tone left over is even: no line stands out as a second tone's would. */
function leavesLine({ residual, terms }: DampedFit): boolean {
  const near = terms[0]?.angular ?? 0;
  const spectrum = powerOf(residual, 1);
  const size = 2 * (spectrum.length - 1);
  let most = 0;
  let sum = 0;
  let bins = 0;
  for (let bin = 1; bin < spectrum.length - 1; bin++) {
    if (Math.abs((2 * Math.PI * bin) / size - near) > reach * near) continue;
    most = Math.max(most, spectrum[bin]!);
    sum += spectrum[bin]!;
    bins++;
  }
  const rest = (sum - most) / Math.max(1, bins - 1);
  return most > (Math.log(bins + 1) + 3) * rest;
}

/** Where a second tone may stand: on the strongest line of what the first left over, and close on either side of it. */
function pairsNear(single: DampedFit, values: Float64Array): readonly (readonly DampedPole[])[] {
  const [tone] = single.terms;
  if (tone === undefined) return [];
  const bin = (2 * Math.PI) / values.length;
  const line = lineOf(single.residual, { near: tone.angular, apart: 0 });
  const decay = Math.max(tone.decay, bin / 20);
  const starts: DampedPole[][] = [
    [
      { decay, angular: tone.angular - bin },
      { decay, angular: tone.angular + bin },
    ],
  ];
  if (line !== undefined) {
    // A single fit to two tones sits between them: the other tone is its mirror in the line that was found.
    starts.push(
      [tone, { decay, angular: line }],
      [
        { decay, angular: 2 * tone.angular - line },
        { decay, angular: line },
      ],
    );
  }
  return starts.filter((start) => start.every(({ angular }) => angular > 0 && angular < Math.PI));
}

/** The strongest line within reach of `near`, at least `apart` from it [rad per value]. */
export function lineOf(values: Float64Array, { near, apart }: { near: number; apart: number }): number | undefined {
  const spectrum = powerOf(values, 4);
  const size = 2 * (spectrum.length - 1);
  let best = -1;
  for (let bin = 1; bin < spectrum.length - 1; bin++) {
    const angular = (2 * Math.PI * bin) / size;
    if (Math.abs(angular - near) > reach * near || Math.abs(angular - near) < apart) continue;
    const isPeak = spectrum[bin]! >= spectrum[bin - 1]! && spectrum[bin]! >= spectrum[bin + 1]!;
    if (isPeak && (best < 0 || spectrum[bin]! > spectrum[best]!)) best = bin;
  }
  return best < 0 ? undefined : (2 * Math.PI * best) / size;
}

/** Power spectrum of the values under a raised cosine, padded with zeros to `padding` times their number. [size/2 + 1] */
function powerOf(values: Float64Array, padding: number, window = true): Float64Array {
  const count = values.length;
  const size = powerOfTwoFrom(count * padding);
  const transform = fourierTransform(size);
  const input = transform.array();
  const output = transform.array();
  for (let n = 0; n < count; n++) {
    const value = values[n]!;
    const weight = window ? 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / count) : 1;
    input[2 * n] = Number.isNaN(value) ? 0 : value * weight;
  }
  transform.forward(input, output);
  return Float64Array.from({ length: size / 2 + 1 }, (_, bin) => output[2 * bin]! ** 2 + output[2 * bin + 1]! ** 2);
}

/**
 * The variance of the noise per value near the tones: from the residual's spectrum about them where that stands out from the rest
 * (coloured noise, quantisation), from the whole residual otherwise.
 */
function judged(fit: DampedFit): FreeDecay {
  const { terms, squares, count, parameters, residual } = fit;
  const freedom = Math.max(1, count - parameters);
  const whole = squares / freedom;
  const spectrum = powerOf(residual, 1, false);
  const size = 2 * (spectrum.length - 1);
  const low = Math.min(...terms.map(({ angular }) => angular)) * 0.75;
  const high = Math.max(...terms.map(({ angular }) => angular)) * 1.25;
  let power = 0;
  let bins = 0;
  for (let bin = 1; bin < spectrum.length - 1; bin++) {
    const angular = (2 * Math.PI * bin) / size;
    if (angular < low || angular > high) continue;
    power += spectrum[bin]!;
    bins++;
  }
  // The zeros that were added make more bins of the same number of values.
  const near = 2 * bins * (residual.length / size) - (parameters - 1);
  if (near < 4) return { fit, variance: whole, freedom };
  const local = (2 * power) / size / near / (count / residual.length);
  const chance = 1 + 2.4 * Math.sqrt(2 / near);
  return local > whole * chance || local < whole / (chance * 1.5)
    ? { fit, variance: local, freedom: near }
    : { fit, variance: whole, freedom };
}

/** Two tones are claimed only where noise does not explain the gain, and where they are apart. */
function isTwo(single: DampedFit, double: DampedFit, values: Float64Array): boolean {
  const { variance } = judged(double);
  const [a, b] = double.terms;
  if (a === undefined || b === undefined) return false;
  const gain = (single.squares - double.squares) / Math.max(variance, Number.MIN_VALUE);
  if (gain < 4 * Math.log(values.length) + claim) return false;
  const apart = Math.abs(a.angular - b.angular);
  const width = Math.abs(a.decay) + Math.abs(b.decay);
  // Two tones inside one line width are a decay that is not exponential.
  if (apart < 0.6 * width || apart > reach * Math.max(a.angular, b.angular)) return false;
  const sizes = [a, b].map(({ real, imaginary }) => Math.hypot(real, imaginary));
  return Math.min(...sizes) > 0.004 * Math.max(...sizes);
}

/** Standard error of a claimed tone's decay, at most this part of it. */
const leastSureness = 0.35;

export function polesIn({ fit }: Pick<FreeDecay, "fit">): readonly DampedPole[] {
  return fit.terms.map(({ decay, angular }) => ({ decay, angular }));
}

/** A first guess of a decay's pole: the strongest line, and how the energy falls from the first half to the second. */
export function guessPole(values: Float64Array, near: number): DampedPole {
  const filled = values.map((value) => (Number.isNaN(value) ? 0 : value));
  const angular = lineOf(filled, { near, apart: 0 }) ?? near;
  const half = filled.length >> 1;
  const energy = (part: Float64Array) => part.reduce((sum, value) => sum + value * value, 0);
  const first = energy(filled.subarray(0, half));
  const second = energy(filled.subarray(half));
  const decay = second > 0 && first > second ? Math.log(first / second) / filled.length : 1 / filled.length;
  return { decay, angular };
}
