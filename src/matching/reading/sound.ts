/** The repetition rate from the sound of the sparks. */
import { analyticSignal, envelopeOf } from "../../numerics/analytic-signal.ts";
import { fitHarmonics } from "../../numerics/harmonic-fit.ts";
import { estimateOf } from "./estimate.ts";
import type { Repetition } from "./repetition.ts";

/** Rates that are looked for [Hz]. */
const slowest = 15;
const fastest = 2500;
const harmonics = 12;
const mostSamples = 1 << 17;
/** The multiples of a rate that is one hold at least this part of the power. */
const leastShare = 0.1;

/** The same of the envelope of clicks. */
const clickShare = 0.4;
/** Clicks have most of their power above this [Hz]. */
const clickFrom = 300;

function clickEnvelope(piece: Float64Array, interval: number): Float64Array {
  return envelopeOf(analyticSignal(piece, { low: Math.min(0.1, clickFrom * interval), high: 0.5 }));
}

/** Undefined where the sound has no steady pitch. @param interval of the record [s] */
export function soundRepetition(samples: Float32Array, interval: number): Repetition | undefined {
  const piece = loudest(samples);
  const high = Math.min(0.2, fastest * interval);
  const low = Math.max(slowest * interval, 8 / piece.length);
  if (piece.length < 64 || !(low < high)) return undefined;
  // Sparks are clicks: their envelope repeats at the rate whatever rings in each. A sound of one pitch has no envelope of its own.
  const clicks = fitHarmonics(clickEnvelope(piece, interval), { low, high, harmonics });
  const fit =
    clicks !== undefined && clicks.share > clickShare ? clicks : fitHarmonics(piece, { low, high, harmonics });
  if (fit === undefined || fit.share < leastShare) return undefined;
  return {
    rate: estimateOf({ value: fit.fundamental / interval, error: fit.error / interval, freedom: 1e6 }),
    bursts: Math.round(fit.fundamental * piece.length),
    uneven: false,
    intervals: [],
  };
}

/** The loudest stretch, gaps filled with silence. */
function loudest(samples: Float32Array): Float64Array {
  const size = Math.min(mostSamples, samples.length);
  const step = Math.max(1, Math.floor(size / 8));
  let best = 0;
  let most = -1;
  for (let from = 0; from + size <= samples.length; from += step) {
    let power = 0;
    for (let i = from; i < from + size; i += 7) {
      const value = samples[i]!;
      if (value - value === 0) power += value * value;
    }
    if (power > most) {
      most = power;
      best = from;
    }
  }
  return Float64Array.from(samples.subarray(best, best + size), (value) => (value - value === 0 ? value : 0));
}
