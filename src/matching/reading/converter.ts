/** What the converter of the instrument did to a channel: the step between its levels, and the levels at which it clipped. */
import type { Survey } from "./survey.ts";

export interface Converter {
  /** Between two levels; 0 where the samples show none. */
  readonly step: number;
  /** Levels that the signal crosses, both ends counted; 0 without steps. */
  readonly levels: number;
  /** The lowest and the highest level that is not clipped; ∓Infinity where nothing clips. */
  readonly below: number;
  readonly above: number;
  /** Samples at the clipped levels. */
  readonly clipped: number;
}

/** Samples that are looked at for steps. */
const looked = 40_000;
/** More different values than this are no levels. */
const mostLevels = 5000;

/** @param surveyed  the same samples */
export function converterOf(samples: Float32Array, surveyed: Survey): Converter {
  const { least, greatest } = surveyed;
  const step = stepOf(samples);
  const levels = step > 0 ? Math.round((greatest - least) / step) + 1 : 0;
  // From the lowest code to the highest: what stands at either end may have been anything beyond it.
  const full = levels >= 256 && Number.isInteger(Math.log2(levels));
  const top = clippedAt(samples, surveyed, { level: greatest, other: least, step, full });
  const bottom = clippedAt(samples, surveyed, { level: least, other: greatest, step, full });
  const margin = step > 0 ? step / 2 : 1e-6 * (greatest - least);
  return {
    step,
    levels,
    above: top > 0 ? greatest - margin : Number.POSITIVE_INFINITY,
    below: bottom > 0 ? least + margin : Number.NEGATIVE_INFINITY,
    clipped: top + bottom,
  };
}

/** The step of which all differences between values are multiples; 0 where there is none. */
function stepOf(samples: Float32Array): number {
  const stride = Math.max(1, Math.floor(samples.length / looked));
  const seen = new Set<number>();
  let count = 0;
  for (let i = 0; i < samples.length; i += stride) {
    const value = samples[i]!;
    if (!Number.isFinite(value)) continue;
    count++;
    seen.add(value);
    if (seen.size > mostLevels) return 0;
  }
  if (seen.size < 3 || seen.size > count / 4) return 0;
  const sorted = Float64Array.from(seen).sort();
  const gaps = Array.from({ length: sorted.length - 1 }, (_, i) => sorted[i + 1]! - sorted[i]!);
  const least = gaps.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  // Values printed with few digits are off the levels by their rounding: the step is refined over all gaps.
  let sum = 0;
  let whole = 0;
  for (const gap of gaps) {
    const times = Math.round(gap / least);
    if (times > 8) continue;
    sum += gap;
    whole += times;
  }
  const step = sum / whole;
  const off = gaps.filter((gap) => Math.abs(gap / step - Math.round(gap / step)) > 0.25).length;
  return off <= gaps.length / 20 ? step : 0;
}

/** Levels below an end at which a signal that turns there by itself is met too. */
const besideLevels = 3;

/**
 * Samples at an end of the range if the converter clipped there: far more than at the level beside it, where a swinging signal passes
 * nearly as often, or some and none at the three levels beside it. 0 if it did not.
 */
function clippedAt(
  samples: Float32Array,
  { high, low, over, blockSize }: Survey,
  { level, other, step, full }: { level: number; other: number; step: number; full: boolean },
): number {
  const width = step > 0 ? step : Math.abs(level - other) / 256;
  const exact = step > 0 ? step / 2 : Math.abs(level - other) * 1e-6;
  const inwards = Math.sign(other - level);
  const extremes = inwards < 0 ? high : low;
  let at = 0;
  let beside = 0;
  let near = 0;
  let runs = 0;
  let inRun = false;
  for (let block = 0; block < extremes.length; block++) {
    // Few blocks reach the end of the range; what is over it is not in their extremes.
    if (over === 0 && !((extremes[block]! - level) * inwards < exact + besideLevels * width)) {
      inRun = false;
      continue;
    }
    const end = Math.min(samples.length, (block + 1) * blockSize);
    for (let i = block * blockSize; i < end; i++) {
      const value = samples[i]!;
      // An instrument that marks what is over its range clips there.
      const depth = value === -inwards * Number.POSITIVE_INFINITY ? 0 : (value - level) * inwards;
      if (depth < exact) {
        at++;
        if (inRun) runs++;
        inRun = true;
      } else {
        inRun = false;
        if (depth < exact + width) beside++;
        if (depth < exact + besideLevels * width) near++;
      }
    }
  }
  const crowded = runs >= 2 && at > 5 * Math.max(1, beside);
  return full || (at >= 3 && (crowded || (step > 0 && near === 0))) ? at : 0;
}
