/** Bursts that a comparator at the secondary's foot does not bring to run: the higher modes hold it, and what follows soon scatters. */
import type { Coil } from "../description/coil.ts";
import type { HalfCyclePeak, Observed } from "../matching/fit/observed.ts";
import { burstSeen } from "./match-burst.ts";
import { type BurstInput, burstInputOf } from "./match-point.ts";
import { type Base, linesOf } from "./match-predict.ts";

/** A burst that runs has half-cycles of nearly one length once it has begun: the later half of those compared. */
const regular = 1.5;
/** Part by which a loss read after a burst that never ran may be off: it is small, and higher modes ring with it. */
const heldQ = 0.12;
/** Part of the greatest peak so far by which small changes of the circuit may move the next one; beyond it nothing is compared. */
const mostScatter = 0.4;
/** Small changes: of frequencies and couplings in parts, of the delay in seconds. */
const small = { parts: 2e-3, coupling: 5e-3, delay: 5e-9 };

/** @returns true where the sense is at the secondary's foot and the record's half-cycles come in no order */
export function heldComparator({ feedback }: Coil, { peaks }: Observed): boolean {
  if (feedback?.sense !== "secondaryCurrent" || peaks.length < 5) return false;
  const late = peaks.slice(Math.floor(peaks.length / 2));
  const intervals = late.slice(1).map(({ time }, n) => time - late[n]!.time);
  return Math.max(...intervals) > regular * Math.min(...intervals) || !grows(peaks);
}

const grows = (peaks: readonly HalfCyclePeak[]): boolean =>
  Math.max(...peaks.slice(-3).map(({ current }) => current)) > 1.5 * peaks[0]!.current;

/** The half-cycles up to which the simulated burst does not scatter under small changes, each with what it does; no carrier. */
export function beforeItScatters(observed: Observed, n: number, base: Base): Observed {
  const { network } = base;
  const { carrier: _carrier, ...rest } = observed;
  if (!network) return rest;
  const input = burstInputOf(base.point(), n);
  const peaksAt = (changed: BurstInput) => burstSeen(network, changed, rest).peaks;
  const now = peaksAt(input);
  const others = [-1, 1].flatMap((sign) => [
    peaksAt({ ...input, loops: { ...input.loops, f1: input.loops.f1 * (1 + sign * small.parts) } }),
    peaksAt({ ...input, loops: { ...input.loops, mutual: input.loops.mutual * (1 + sign * small.coupling) } }),
    peaksAt({ ...input, delay: Math.max(0, input.delay + sign * small.delay) }),
  ]);
  const scatter = now.map((peak, k) => Math.max(...others.map((other) => Math.abs((other[k] ?? 0) - peak))));
  const ends = scatter.findIndex((by, k) => by > mostScatter * Math.max(...now.slice(0, k + 1)));
  const peaks = observed.peaks
    .slice(0, ends < 0 ? now.length : Math.max(1, ends))
    .map((peak, k) => ({ ...peak, error: Math.hypot(peak.error, scatter[k] ?? 0) }));
  const tones = observed.tones.map(({ frequency, q }) => ({
    frequency,
    ...(q ? { q: { ...q, error: Math.hypot(q.error, heldQ * q.value) } } : {}),
  }));
  return { ...rest, peaks, tones };
}

/** Parts by which a carrier may lie off both poles and still be one of a burst that runs. */
const nearPole = 0.08;

/** Where only a loop shows the drive of such a coil: whether its carrier is one of a burst that runs. */
export function runsOnPole({ carrier }: Observed, base: Base, loops: Parameters<typeof linesOf>[0]): boolean {
  if (carrier === undefined) return false;
  const { lower, upper } = linesOf(loops, base);
  return [lower, upper].some(({ frequency }) => Math.abs(carrier.value / frequency - 1) < nearPole);
}
