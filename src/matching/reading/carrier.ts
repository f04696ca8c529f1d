/** The frequency of a signal whose drive no square explains: its zero crossings from where the signal stands clear to the drive's end. */
import { analyticSignal } from "../../numerics/analytic-signal.ts";
import type { Measured } from "./estimate.ts";
import { bridged, type Stretch } from "./stretch.ts";

/** Counted from the first half-cycle that reaches this part of the greatest. */
const clearShare = 0.1;
/** How far the band's filter may move a crossing near an edge, in cycles; measured on simulated records without noise. */
const filterShift = 0.004;

/**
 * Mean frequency of the signal over the drive: half the half-cycles, in parts at both ends, over their time.
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
  const filled = bridged(values, cycle / 2);
  const crossingsIn = (band: { low: number; high: number }) =>
    crossingsOf(
      analyticSignal(filled, band).real,
      Math.max(1, Math.ceil(from)),
      Math.min(filled.length, Math.floor(to)),
    );
  // The square drive's harmonics move the crossings and belong to them; only drift is kept out.
  const wide = { low: 0.25 / cycle, high: 0.5 };
  const all = crossingsIn(wide);
  // Steps of the bridge, or noise, that cross zero on their own are no half-cycles.
  const extra = all.length > mostPerCycle * Math.max(1, (to - from) / cycle);
  const band = extra ? { low: 0.5 / cycle, high: Math.min(0.5, 1.6 / cycle) } : wide;
  const crossings = extra ? crossingsIn(band) : all;
  const most = crossings.reduce((greatest, { before }) => Math.max(greatest, before), 0);
  const first = crossings.findIndex(({ before }) => before >= clearShare * most);
  if (first < 0 || crossings.length - first < 6) return undefined;
  const start = placeOfReaching(crossings, first, clearShare * most);
  const end = Math.min(to - cycle / 4, crossings[crossings.length - 1]!.at);
  const halves = countAt(crossings, end, cycle) - countAt(crossings, start, cycle);
  const perHalf = (end - start) / halves;
  if (!(halves > 5)) return undefined;
  // Noise within the band moves a crossing by its own size over the slope there.
  const inBand = Math.sqrt(noise * 2 * (band.high - band.low));
  const moved = (size: number) => Math.hypot(inBand / size / angular, filterShift * cycle);
  const byNoise =
    averaged * Math.hypot(moved(crossings[first]!.before), moved(crossings[crossings.length - 1]!.before));
  // Where the frequency at an end is another than the mean, it matters where that end is taken to be.
  const off = (at: number) => perHalf / spacingAbout(crossings, at) - 1;
  const byEnds = endDoubt * perHalf * Math.hypot(off(first), off(crossings.length - 1));
  // Where the envelope passes through a null the count is unsure by a half-cycle.
  const least = crossings.slice(first).reduce((lowest, { before }) => Math.min(lowest, before), most);
  const byNull = least < clearShare * most ? nullDoubt * perHalf : 0;
  const value = 1 / (2 * perHalf * step * interval);
  return {
    value,
    error: (value * Math.hypot(byNoise, byEnds, byNull, unexplained * perHalf)) / (end - start),
    freedom: 60,
  };
}

/** Zero crossings to a cycle; more are not the oscillation's own. */
const mostPerCycle = 2.3;

/** A signal whose drive is not explained has its phase off the bridge's by this many half-cycles from one end to the other. */
const unexplained = 0.1;

/** What is left of one crossing's noise in a line through several. */
const averaged = 0.6;
/** Standard deviation of the place of either end, in half-cycles. */
const endDoubt = 0.17;

/** Standard deviation of a count through a null, in half-cycles. */
const nullDoubt = 0.5;

/** Where the half-cycles' heights, taken as growing evenly from one to the next, reach `height`; `first` is the first above it. */
function placeOfReaching(crossings: readonly Crossing[], first: number, height: number): number {
  const after = crossings[first]!;
  const before = crossings[first - 1];
  if (before === undefined) return after.at;
  const rise = after.before - before.before;
  const part = rise > 0 ? (height - before.before) / rise : 1;
  return before.at + Math.max(0, Math.min(1, part)) * (after.at - before.at);
}

/** Cycles on either side of a place from which the count there is read. */
const about = 1.4;

/** Half-cycles up to a place: a line through the crossings about it, the louder ones counting more. */
function countAt(crossings: readonly Crossing[], place: number, cycle: number): number {
  let [weights, meanAt, meanCount] = [0, 0, 0];
  const near = crossings.flatMap(({ at, before }, k) => {
    const weight = Math.abs(at - place) <= about * cycle ? before * before : 0;
    weights += weight;
    meanAt += weight * at;
    meanCount += weight * k;
    return weight > 0 ? [{ at, weight, k }] : [];
  });
  meanAt /= weights;
  meanCount /= weights;
  let [spread, product] = [0, 0];
  for (const { at, weight, k } of near) {
    spread += weight * (at - meanAt) ** 2;
    product += weight * (at - meanAt) * (k - meanCount);
  }
  return meanCount + (spread > 0 ? (product / spread) * (place - meanAt) : (place - meanAt) / (cycle / 2));
}

/** Mean length of the half-cycles about a crossing. */
function spacingAbout(crossings: readonly Crossing[], at: number): number {
  const from = Math.max(0, at - 3);
  const to = Math.min(crossings.length - 1, at + 3);
  return (crossings[to]!.at - crossings[from]!.at) / (to - from);
}

interface Crossing {
  readonly at: number;
  /** Greatest value of the half-cycle before it. */
  readonly before: number;
}

function crossingsOf(values: Float64Array, from: number, to: number): readonly Crossing[] {
  const crossings: Crossing[] = [];
  let greatest = 0;
  for (let n = from; n < to; n++) {
    const [a, b] = [values[n - 1]!, values[n]!];
    if (a < 0 !== b < 0) {
      crossings.push({ at: n - 1 + a / (a - b), before: greatest });
      greatest = 0;
    }
    greatest = Math.max(greatest, Math.abs(b));
  }
  return crossings;
}
