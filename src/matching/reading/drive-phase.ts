/**
 * When the bridge stopped driving, from the third harmonic that its square wave leaves in the primary's current.
 *
 * Driven, the bridge steps up where the current passes zero upwards; giving energy back through its diodes it steps down there. The
 * current's third harmonic, seen against three times the fundamental's phase, has the same size either way and the opposite sign; once
 * nothing drives it is gone.
 */
import { analyticSignal, phaseOf } from "../../numerics/analytic-signal.ts";

export interface DriveStop {
  /** In values. */
  readonly at: number;
  /** Standard error, in values. */
  readonly error: number;
  /** What follows: energy given back, or a free decay. */
  readonly after: "returned" | "free";
}

/** Values to a cycle that the harmonic needs. */
export const harmonicPerCycle = 8;
/** The harmonic before the end must stand this many standard errors from that after it. */
const leastContrast = 5;
/** Independent values of the filtered harmonic to a cycle. */
const perCycle = 1.5;
/** Cycles at both ends that the filters blur. */
const blurred = 0.75;

/**
 * @param values   from before the drive to after the current; 0 where a value does not count
 * @param from, to where the current certainly flows
 * @param cycle    values to a cycle, at least `harmonicPerCycle`
 * @returns  undefined where the harmonic does not change clearly
 */
export function driveStop(
  values: Float64Array,
  { from, to, cycle }: { from: number; to: number; cycle: number },
): DriveStop | undefined {
  if (cycle < harmonicPerCycle) return undefined;
  const start = Math.ceil(from + blurred * cycle);
  const end = Math.floor(to - blurred * cycle);
  if (end - start < 4 * cycle) return undefined;
  const phase = phaseOf(analyticSignal(values, { low: 0.5 / cycle, high: 1.6 / cycle }));
  const third = analyticSignal(values, { low: 2.4 / cycle, high: Math.min(0.5, 3.6 / cycle) });
  const count = end - start;
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    const turn = -3 * phase[start + n]!;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    re[n] = third.real[start + n]! * c - third.imaginary[start + n]! * s;
    im[n] = third.real[start + n]! * s + third.imaginary[start + n]! * c;
  }
  return changeOf({ re, im, start, cycle });
}

/** Two levels, each held steadily: the place that parts them best. */
function changeOf({
  re,
  im,
  start,
  cycle,
}: {
  re: Float64Array;
  im: Float64Array;
  start: number;
  cycle: number;
}): DriveStop | undefined {
  const count = re.length;
  const sums = { re: new Float64Array(count + 1), im: new Float64Array(count + 1) };
  let squares = 0;
  for (let n = 0; n < count; n++) {
    sums.re[n + 1] = sums.re[n]! + re[n]!;
    sums.im[n + 1] = sums.im[n]! + im[n]!;
    squares += re[n]! ** 2 + im[n]! ** 2;
  }
  const level = (a: number, b: number) => ({
    re: (sums.re[b]! - sums.re[a]!) / (b - a),
    im: (sums.im[b]! - sums.im[a]!) / (b - a),
  });
  const least = Math.ceil(cycle);
  const explained = (at: number) => {
    const [before, after] = [level(0, at), level(at, count)];
    return at * (before.re ** 2 + before.im ** 2) + (count - at) * (after.re ** 2 + after.im ** 2);
  };
  let best = -1;
  for (let at = least; at <= count - least; at++) if (best < 0 || explained(at) > explained(best)) best = at;
  if (best < 0) return undefined;
  const [before, after] = [level(0, best), level(best, count)];
  const size = Math.hypot(before.re, before.im);
  const step = Math.hypot(after.re - before.re, after.im - before.im);
  // The filter lets independent values through at this rate only.
  const rest = Math.max(0, squares - explained(best)) / count;
  const error = Math.sqrt(rest * (cycle / perCycle) * (1 / best + 1 / (count - best)));
  if (!(step > leastContrast * error) || step < 0.6 * size) return undefined;
  const along = (after.re * before.re + after.im * before.im) / (size * size);
  return {
    at: start + best,
    error: cycle * Math.hypot(edgeDoubt, Math.min(1, (0.5 * rest) / (step * step))),
    after: along < -0.25 ? "returned" : "free",
  };
}

/** Standard error of the change's place in cycles where noise is small: the filter's blur. */
const edgeDoubt = 0.25;
