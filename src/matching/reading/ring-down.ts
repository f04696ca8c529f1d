/** The free decay after the drive: one damped tone or two, where it begins, and how sure its poles are. */
import { type DampedFit, type DampedPole, dampedAt, fitDamped } from "../../numerics/damped-fit.ts";
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

/** A tone whose decay is not known at all is the misfit of the other. */
function isSureDecay(fit: DampedFit): (term: DampedPole, k: number) => boolean {
  const { variance } = judged(fit);
  const size = 2 * fit.terms.length;
  return ({ decay }, k) =>
    decay > 0 && Math.sqrt(variance * fit.covariance[2 * k * (size + 1)]!) < leastSureness * decay;
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

export interface Decay extends FreeDecay {
  /** The model fails at values before this one: something else drives them. */
  readonly freeFrom: number;
}

/**
 * Finds the decay and how far back it reaches: fitted to the late part first, then carried back as far as what it foretells is there,
 * fitted again, and so on until it reaches no further.
 *
 * @param values   from before the end of the drive to where the decay sinks into the noise
 * @param options  `from`: where surely nothing drives any more; `cycle`: values to a cycle; `noise`: standard deviation of a value
 */
export function findDecay(
  values: Float64Array,
  { from, cycle, noise, near }: { from: number; cycle: number; noise: number; near: DampedPole },
): Decay | undefined {
  let start = from;
  const late = fitDecay(values.subarray(start), near);
  if (late === undefined) return undefined;
  let decay: FreeDecay = late;
  let searches = 0;
  for (let round = 0; round < mostRounds && start > 0; round++) {
    const [single] = polesIn(decay);
    let earlier = foretold(values, { start, decay, cycle, noise });
    let longer: FreeDecay | undefined =
      earlier < start ? fitTones(values.subarray(earlier), polesIn(decay)) : undefined;
    if (earlier < start && !fits(longer, { fresh: start - earlier, decay, noise })) {
      earlier = Math.round((earlier + start) / 2);
      longer = fitTones(values.subarray(earlier), polesIn(decay));
    }
    if (start - earlier >= cycle / 2 && fits(longer, { fresh: start - earlier, decay, noise })) {
      decay = longer;
      start = earlier;
      continue;
    }
    // What the one tone does not foretell may be a second one that dies sooner.
    const second =
      single === undefined || decay.fit.terms.length > 1 || searches >= mostSearches
        ? undefined
        : withSecond(values, { start, decay, single, cycle, noise });
    if (second === undefined) break;
    searches++;
    decay = second.decay;
    start = second.start;
  }
  return { ...decay, freeFrom: start };
}

const mostRounds = 16;
const mostSearches = 2;
/** Cycles by which a decay is carried back to see whether a second tone explains what is there. */
const searchCycles = [5, 12, 30];

/** The decay carried back with a second tone, as far as that explains what is there. */
function withSecond(
  values: Float64Array,
  {
    start,
    decay,
    single,
    cycle,
    noise,
  }: { start: number; decay: FreeDecay; single: DampedPole; cycle: number; noise: number },
): { decay: FreeDecay; start: number } | undefined {
  for (const cycles of searchCycles) {
    const earlier = Math.round(start - cycles * cycle);
    if (earlier < 0) return undefined;
    const longer = fitDecay(values.subarray(earlier), single);
    if (longer?.fit.terms.length === 2 && fits(longer, { fresh: start - earlier, decay, noise }))
      return { decay: longer, start: earlier };
  }
  return undefined;
}
/** What is foretold may be off by this many standard errors over a half-cycle. */
const surprise = 5;

export function polesIn({ fit }: Pick<FreeDecay, "fit">): readonly DampedPole[] {
  return fit.terms.map(({ decay, angular }) => ({ decay, angular }));
}

/** The first value, back from `start`, up to which the decay foretells the values within its own uncertainty. */
function foretold(
  values: Float64Array,
  { start, decay, cycle, noise }: { start: number; decay: FreeDecay; cycle: number; noise: number },
): number {
  const { fit, variance, freedom } = decay;
  const window = Math.max(2, Math.round(cycle / 2));
  const size = 2 * fit.terms.length;
  const perValue = Math.max(variance, noise * noise * 0.5);
  let reached = start;
  let surprised = false;
  for (let end = start; end - window >= 0; end -= window) {
    let squares = 0;
    let counted = 0;
    for (let n = end - window; n < end; n++) {
      const rest = values[n]! - dampedAt(fit, n - start);
      if (Number.isNaN(rest)) continue;
      squares += rest * rest;
      counted++;
    }
    const away = start - end + window;
    let uncertain = 0;
    for (const [k, term] of fit.terms.entries()) {
      const power = (term.real ** 2 + term.imaginary ** 2) * Math.exp(2 * term.decay * away);
      const doubts = fit.covariance[2 * k * size + 2 * k]! + fit.covariance[(2 * k + 1) * size + 2 * k + 1]!;
      uncertain +=
        power *
        perValue *
        (doubts * away * away + 4 / (freedom * Math.max(1e-12, (term.real ** 2 + term.imaginary ** 2) / 2)));
    }
    const size2 = fit.terms.reduce(
      (sum, term) => sum + (term.real ** 2 + term.imaginary ** 2) * Math.exp(2 * term.decay * away),
      0,
    );
    const allowed = perValue * (1 + surprise * Math.sqrt(2 / window)) + surprise * uncertain + nonlinear ** 2 * size2;
    // One half-cycle of many is surprising by chance; two in a row are not.
    const surprising = counted > 0 && squares / counted > allowed;
    if (surprising && surprised) break;
    surprised = surprising;
    if (!surprising) reached = end - window;
  }
  return reached;
}

/** A converter is linear to a thousandth or two at best; what is off by that part of the signal is no drive. */
const nonlinear = 0.0015;

function fits(
  candidate: FreeDecay | undefined,
  { fresh, decay, noise }: { fresh: number; decay: FreeDecay; noise: number },
): candidate is FreeDecay {
  if (candidate === undefined || fresh < 1) return false;
  const { residual } = candidate.fit;
  let squares = 0;
  let size = 0;
  for (let n = 0; n < fresh; n++) {
    squares += residual[n]! ** 2;
    size = Math.max(size, Math.abs(dampedAt(candidate.fit, n)));
  }
  const variance = Math.max(decay.variance, noise * noise * 0.5);
  const allowed = variance * (1 + 6 * Math.sqrt(2 / fresh)) + (nonlinear * size) ** 2;
  return squares / fresh <= allowed;
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
