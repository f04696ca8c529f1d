/** The poles that the decays of all bursts show together: one or two, with decay and quality. */
import { combined, type Estimate, estimateOf, type Measured } from "./estimate.ts";
import { type FreeDecay, fitTones, isLine } from "./ring-down.ts";
import type { BurstTones } from "./tones.ts";

export interface Pole {
  /** Frequency at which it rings down [Hz]. */
  readonly frequency: Estimate;
  /** Time in which the amplitude falls to 1/e [s]. */
  readonly decayTime: Estimate;
  /** π × frequency × decay time. */
  readonly q: Estimate;
  /** Part of the decays' energy that it holds, 0 … 1. */
  readonly share: number;
}

export interface Poles {
  /** Lower first; one or two. */
  readonly poles: readonly Pole[];
  readonly beat?: Estimate;
  /** Decays that were read. */
  readonly decays: number;
  /** The decays fitted with the number of tones agreed on. */
  readonly tones: readonly BurstTones[];
}

interface ToneMeasured {
  readonly frequency: Measured;
  readonly rate: Measured;
  readonly energy: number;
}

/** Undefined where no burst has a decay that is known. @param interval of the record [s] */
export function polesFrom(bursts: readonly BurstTones[], interval: number): Poles | undefined {
  if (bursts.length === 0) return undefined;
  const two = bursts.filter(({ decay }) => decay.fit.terms.length === 2).length * 2 >= bursts.length;
  const double = two ? together(bursts, 2, interval) : undefined;
  if (double?.poles.every(isKnown)) return double;
  const single = together(bursts, 1, interval);
  return single?.poles.every(isKnown) ? single : undefined;
}

/** A pole whose decay the bursts do not agree on, or do not show, is none. */
function isKnown({ decayTime: { value, low, high } }: Pole): boolean {
  return high - low < 1.2 * value;
}

function together(bursts: readonly BurstTones[], wanted: 1 | 2, interval: number): Poles | undefined {
  const usable = bursts.flatMap((one) => withTones(one, wanted, bursts));
  if (usable.length === 0) return undefined;
  const measured = usable.map((one) => tonesOf(one, interval));
  const energies = Array.from({ length: wanted }, (_, k) =>
    measured.reduce((sum, tones) => sum + (tones[k]?.energy ?? 0), 0),
  );
  const total = energies.reduce((sum, energy) => sum + energy, 0);
  const poles = energies.flatMap((energy, k) => {
    const frequency = combined(measured.flatMap((tones) => (tones[k] === undefined ? [] : [tones[k].frequency])));
    const rate = combined(measured.flatMap((tones) => (tones[k] === undefined ? [] : [tones[k].rate])));
    return frequency === undefined || rate === undefined ? [] : [poleOf({ frequency, rate, share: energy / total })];
  });
  if (poles.length < wanted) return undefined;
  const beat = wanted === 2 ? combined(usable.map((one) => beatOf(one, interval))) : undefined;
  return { poles, decays: usable.length, tones: usable, ...(beat === undefined ? {} : { beat: estimateOf(beat) }) };
}

/** The burst with as many tones as were agreed on; refitted where it has another number, left out where that fails. */
function withTones(one: BurstTones, count: number, all: readonly BurstTones[]): BurstTones[] {
  if (one.decay.fit.terms.length === count) return [one];
  const model = all.find(({ decay }) => decay.fit.terms.length === count) ?? all[0];
  if (model === undefined) return [];
  const scale = one.stretch.step / model.stretch.step;
  const strongest = [...model.decay.fit.terms]
    .sort((x, y) => Math.hypot(y.real, y.imaginary) - Math.hypot(x.real, x.imaginary))
    .slice(0, count)
    .map(({ decay, angular }) => ({ decay: decay * scale, angular: angular * scale }));
  if (strongest.length < count) return [];
  const from = Math.round((one.decayFrom - one.stretch.from) / one.stretch.step);
  const decay = fitTones(one.stretch.values.subarray(from), strongest);
  return decay?.fit.terms.every(isLine) ? [{ ...one, decay }] : [];
}

/** Places of the terms, lower first. */
function inOrder({ fit }: FreeDecay): readonly number[] {
  return fit.terms.map((_, k) => k).sort((a, b) => (fit.terms[a]?.angular ?? 0) - (fit.terms[b]?.angular ?? 0));
}

function tonesOf({ decay, stretch }: BurstTones, interval: number): readonly ToneMeasured[] {
  const { fit, variance, freedom } = decay;
  const time = interval * stretch.step;
  const size = 2 * fit.terms.length;
  return inOrder(decay).map((k) => {
    const term = fit.terms[k]!;
    const spread = (at: number) => Math.sqrt(Math.max(0, variance * fit.covariance[at * size + at]!));
    return {
      frequency: {
        value: term.angular / (2 * Math.PI * time),
        error: spread(2 * k + 1) / (2 * Math.PI * time),
        freedom,
      },
      rate: { value: term.decay / time, error: spread(2 * k) / time, freedom },
      energy: (term.real ** 2 + term.imaginary ** 2) / term.decay,
    };
  });
}

function beatOf({ decay, stretch }: BurstTones, interval: number): Measured {
  const { fit, variance, freedom } = decay;
  const [a = 0, b = 0] = inOrder(decay);
  const size = 2 * fit.terms.length;
  const [i, j] = [2 * a + 1, 2 * b + 1];
  const spread = fit.covariance[i * size + i]! + fit.covariance[j * size + j]! - 2 * fit.covariance[i * size + j]!;
  const scale = 1 / (2 * Math.PI * interval * stretch.step);
  return {
    value: (fit.terms[b]!.angular - fit.terms[a]!.angular) * scale,
    error: Math.sqrt(Math.max(0, variance * spread)) * scale,
    freedom,
  };
}

function poleOf({ frequency, rate, share }: { frequency: Measured; rate: Measured; share: number }): Pole {
  const rates = estimateOf(rate);
  // The interval is symmetrical in the rate; in the time and the quality its ends turn over. A rate that may be 0 leaves them open.
  const slowest = Math.max(rates.low, rate.value * 1e-3);
  const angular = 2 * Math.PI * frequency.value;
  return {
    frequency: estimateOf(frequency),
    decayTime: { value: 1 / rate.value, low: 1 / rates.high, high: 1 / slowest },
    q: { value: angular / (2 * rate.value), low: angular / (2 * rates.high), high: angular / (2 * slowest) },
    share,
  };
}
