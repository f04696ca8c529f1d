/** The frequency at which the coil runs while it is driven: how far the phase turns from where the signal stands clear to the drive's end. */
import { type AnalyticSignal, analyticSignal, envelopeOf, phaseOf } from "../../numerics/analytic-signal.ts";
import type { Measured } from "./estimate.ts";
import type { Stretch } from "./stretch.ts";

/** The drive counts from where its envelope first reaches this part of its greatest. */
const clearShare = 0.1;
/** Cycles at each end over which the phase is averaged. */
const averaged = 1;

/**
 * Mean frequency of the signal over the drive.
 *
 * @param drive     places in the stretch where it began and ended
 * @param noise     variance per value
 * @param interval  of the record [s]
 * @returns  Hz; undefined where fewer than three cycles stand clear
 */
export function carrierOf(
  { values, step }: Stretch,
  {
    from,
    to,
    angular,
    noise,
    interval,
  }: { from: number; to: number; angular: number; noise: number; interval: number },
): Measured | undefined {
  const cycle = (2 * Math.PI) / angular;
  const filled = values.map((value) => (Number.isNaN(value) ? 0 : value));
  const band = { low: 0.5 / cycle, high: Math.min(0.5, 1.6 / cycle) };
  const signal = analyticSignal(filled, band);
  const envelope = envelopeOf(signal);
  const end = Math.floor(to - 0.5 * cycle);
  let most = 0;
  for (let n = Math.max(0, Math.ceil(from)); n < end; n++) most = Math.max(most, envelope[n] ?? 0);
  let start = Math.max(0, Math.ceil(from));
  while (start < end && (envelope[start] ?? 0) < clearShare * most) start++;
  if (end - start < 3 * cycle) return undefined;
  const half = Math.max(1, Math.round((averaged * cycle) / 2));
  const phase = phaseOf(signal);
  const first = phaseAbout(phase, signal, { at: start + half, half, angular });
  const last = phaseAbout(phase, signal, { at: end - half, half, angular });
  const turned = last.phase - first.phase;
  const time = (last.at - first.at) * step * interval;
  // Noise within the band, in quadrature to the signal, turns the phase; neighbours within a cycle are not independent.
  const inBand = noise * 2 * (band.high - band.low);
  const error = Math.sqrt(inBand) * Math.hypot(1 / first.size, 1 / last.size);
  return { value: turned / (2 * Math.PI * time), error: error / (2 * Math.PI * time), freedom: 60 };
}

/** Phase at the middle of a few values, the turning at `angular` taken out of the average. */
function phaseAbout(
  phase: Float64Array,
  signal: AnalyticSignal,
  { at, half, angular }: { at: number; half: number; angular: number },
): { at: number; phase: number; size: number } {
  let sum = 0;
  let weight = 0;
  let size = 0;
  let count = 0;
  let place = 0;
  for (let n = Math.max(0, at - half); n <= Math.min(phase.length - 1, at + half); n++) {
    const power = signal.real[n]! ** 2 + signal.imaginary[n]! ** 2;
    sum += power * (phase[n]! - angular * n);
    place += power * n;
    weight += power;
    size += Math.sqrt(power);
    count++;
  }
  const centre = place / weight;
  return { at: centre, phase: sum / weight + angular * centre, size: size / count };
}
