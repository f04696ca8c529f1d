/** Where the free decay after the drive begins. */
import { type DampedPole, dampedAt } from "../../numerics/damped-fit.ts";
import { type FreeDecay, fitDecay, fitTones, guessPole, isLine, polesIn } from "./ring-down.ts";

export interface Decay extends FreeDecay {
  /** The model fails at values before this one: something else drives them. */
  readonly freeFrom: number;
  /** The tones explain its beginning as well as its end. */
  readonly even: boolean;
}

interface DecayLook {
  readonly from: number;
  readonly cycle: number;
  readonly noise: number;
  readonly quiet: number | undefined;
  readonly angular: number;
}

/**
 * Finds the decay and how far back it reaches: fitted to the late part first, then carried back as far as what it foretells is there,
 * fitted again, and so on until it reaches no further.
 *
 * @param values   from before the end of the drive to where the decay sinks into the noise
 * @param options  `from`: where surely nothing drives any more; `cycle`: values to a cycle; `noise`: standard deviation of a value;
 *                 `quiet`: variance before the burst, where it is seen; `angular`: of the signal, roughly
 */
export function findDecay(values: Float64Array, { from, cycle, noise, quiet, angular }: DecayLook): Decay | undefined {
  const late = lateDecay(values, { from, cycle, noise, quiet, angular });
  if (late === undefined) return undefined;
  let start = late.freeFrom;
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
  return { ...decay, freeFrom: start, even: late.even };
}

/** Parts of what is left behind the loud that are tried in turn, from the longest. */
const lateParts = [1, 0.85, 0.7, 0.55, 0.4, 0.3, 0.2];

/**
 * The longest part up to the end that is a sum of steady tones. After the drive the bridge may take energy back for many cycles, in which the
 * coil does not ring freely; only what follows does. Where no part is (a streamer), the longest that has lines.
 */
function lateDecay(values: Float64Array, { from, cycle, noise, quiet, angular }: DecayLook): Decay | undefined {
  let uneven: Decay | undefined;
  for (const part of lateParts) {
    const start = Math.round(values.length - part * (values.length - from));
    const rest = values.subarray(start);
    if (part < 1 && rest.length < fewestCycles * cycle) break;
    const decay = fitDecay(rest, guessPole(rest, angular));
    if (decay === undefined || !decay.fit.terms.every(isLine)) continue;
    const even = isEven(decay, { cycle, noise, quiet });
    if (even) return { ...decay, freeFrom: start, even };
    uneven ??= { ...decay, freeFrom: start, even };
  }
  return uneven;
}

/** Cycles of a free part at least, and those at its beginning that must be no worse explained than the rest. */
const fewestCycles = 8;
const firstCycles = [1.5, 3, 6, 12];

/** A fit that leaves this many times the noise leaves a tone. */
const misfit = 1.5;

/** The tones explain the beginning as well as the end. */
function isEven(
  decay: FreeDecay,
  { cycle, noise, quiet }: { cycle: number; noise: number; quiet: number | undefined },
): boolean {
  const { residual } = decay.fit;
  const meanSquare = (part: Float64Array) => part.reduce((sum, value) => sum + value * value, 0) / part.length;
  const end = meanSquare(residual.subarray(residual.length >> 1));
  const size = dampedSize(decay);
  // What rings through all of it unexplained is even too.
  if (quiet !== undefined && end > misfit ** 2 * Math.max(quiet, noise * noise) + (nonlinear * size) ** 2) return false;
  return firstCycles.every((cycles) => {
    const count = Math.round(cycles * cycle);
    if (2 * count > residual.length) return true;
    const allowed = Math.max(end, noise * noise) * (1 + surprise * Math.sqrt(2 / count)) + (nonlinear * size) ** 2;
    return meanSquare(residual.subarray(0, count)) <= allowed;
  });
}

/** Greatest amplitude that the tones can have together. */
function dampedSize({ fit }: FreeDecay): number {
  return fit.terms.reduce((sum, { real, imaginary }) => sum + Math.hypot(real, imaginary), 0);
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
