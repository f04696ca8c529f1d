/** The burst of a floating bridge fitted to a channel: circuit, drive and the channel's amplitudes by least squares. */
import { levenbergMarquardt } from "../../numerics/levenberg-marquardt.ts";
import { emptyNormal, observe, solveNormal } from "../../numerics/normal-equations.ts";
import { type FloatingBurst, type FloatingCircuit, type FloatingView, floatingBurst } from "./floating-burst.ts";

/** What is looked at, and what is known beforehand. */
export interface FloatingSearch {
  /** NaN where a value does not count; from the quiet before the burst on. */
  readonly values: Float64Array;
  readonly view: FloatingView;
  /** Values to a cycle, roughly. */
  readonly cycle: number;
  /** Variance of the noise per value. */
  readonly noise: number;
  /** The secondary's own line where it is seen ringing alone, with standard errors. */
  readonly line?: {
    readonly angular: number;
    readonly loss: number;
    readonly angularError: number;
    readonly lossError: number;
  };
}

/** Values `from` up to `to`, the last one not included. */
export interface Window {
  readonly from: number;
  readonly to: number;
}

/**
 * The circuit as numbers near 0 or of the size of their doubt: ln of the secondary's frequency over the rough one, of the primary's over the
 * secondary's, of the coupling, of both Q; start and lag [values]; threshold, back − 1, sag; and the length [values] once there is an end.
 */
export type Parameters = Float64Array;
export const lengthAt = 10;
export const startAt = 5;

/** Beforehand: value and standard deviation, of coils as they are built; common practice, no source. The lag in cycles. */
const usual = {
  detuning: { is: -0.03, doubt: 0.07 },
  coupling: { is: Math.log(0.13), doubt: 0.35 },
  primaryQ: { is: Math.log(70), doubt: 0.6 },
  secondaryQ: { is: Math.log(130), doubt: 0.7 },
  lag: { is: 0.02, doubt: 0.04 },
  threshold: { is: 0, doubt: 0.1 },
  back: { is: 0.02, doubt: 0.04 },
  sag: { is: 0, doubt: 1 },
} as const;
const sagUnit = 1e-4;

export function circuitOf({ cycle }: FloatingSearch, p: Parameters): FloatingCircuit {
  const second = ((2 * Math.PI) / cycle) * Math.exp(p[0]!);
  const first = second * Math.exp(p[1]!);
  return {
    primary: { angular: first, loss: first / Math.exp(p[3]!) },
    secondary: { angular: second, loss: second / Math.exp(p[4]!) },
    coupling: Math.exp(p[2]!),
    start: p[startAt]!,
    lag: p[6]!,
    threshold: p[7]!,
    back: 1 + p[8]!,
    sag: sagUnit * p[9]!,
    length: p[lengthAt] ?? Number.POSITIVE_INFINITY,
  };
}

/** Parameters to begin with. */
export function usualParameters(
  { cycle, line }: FloatingSearch,
  { scale = 1, detuning, coupling, start }: { scale?: number; detuning: number; coupling: number; start: number },
): Parameters {
  const second = line === undefined ? Math.log(scale) : Math.log((line.angular * cycle) / (2 * Math.PI));
  const q = line === undefined ? usual.secondaryQ.is : Math.log(line.angular / line.loss);
  return Float64Array.of(
    second,
    Math.log(detuning),
    Math.log(coupling),
    usual.primaryQ.is,
    q,
    start,
    usual.lag.is * cycle,
    0,
    usual.back.is,
    0,
  );
}

/** Doubt of a piece that is too short to show loss, threshold, back and sag, as a part of the usual one. */
const shortDoubt = 0.25;

/** Residuals of what is known beforehand, each over its standard deviation. */
function priorsOf({ cycle, line }: FloatingSearch, p: Parameters, short: boolean): number[] {
  const part = short ? shortDoubt : 1;
  const off = (at: number, { is, doubt }: { is: number; doubt: number }, unit = 1) => (p[at]! / unit - is) / doubt;
  const rough = (2 * Math.PI) / cycle;
  const known =
    line === undefined
      ? [off(0, { is: 0, doubt: 0.15 }), off(4, usual.secondaryQ)]
      : [
          (rough * Math.exp(p[0]!) - line.angular) / line.angularError,
          (rough * Math.exp(p[0]! - p[4]!) - line.loss) / line.lossError,
        ];
  return [
    ...known,
    off(1, usual.detuning),
    off(2, usual.coupling),
    off(6, usual.lag, cycle),
    off(3, usual.primaryQ) / part,
    off(7, usual.threshold) / part,
    off(8, usual.back) / part,
    off(9, usual.sag) / part,
  ];
}
const priors = 9;

/** Bounds within which a circuit is a coil: far beyond them the fit has run away. */
function isCoil({ cycle }: FloatingSearch, p: Parameters): boolean {
  return (
    Math.abs(p[0]!) < 0.4 &&
    Math.abs(p[1]!) < 0.4 &&
    p[2]! > Math.log(0.02) &&
    p[2]! < Math.log(0.45) &&
    Math.min(p[3]!, p[4]!) > Math.log(4) &&
    Math.max(p[3]!, p[4]!) < Math.log(3000) &&
    Math.abs(p[6]!) < 0.2 * cycle &&
    Math.abs(p[7]!) < 0.8 &&
    Math.abs(p[8]!) < 0.4 &&
    Math.abs(p[9]!) < 30 &&
    !(p[lengthAt]! < 2 * cycle)
  );
}

export interface Projected {
  readonly burst: FloatingBurst;
  /** Model − value, 0 where a value does not count. */
  readonly residual: Float64Array;
  readonly squares: number;
}

/** The burst with the amplitudes that fit best. Undefined where they cannot be told apart. */
export function project(search: FloatingSearch, p: Parameters, { from, to }: Window): Projected | undefined {
  const burst = floatingBurst(circuitOf(search, p), { view: search.view, from, to });
  return projectOn(search.values, burst, from);
}

/** The same for a burst whose columns begin at value `from`. */
export function projectOn(values: Float64Array, burst: FloatingBurst, from: number): Projected | undefined {
  const { columns } = burst;
  const size = columns.length + 1;
  const count = columns[0]!.length;
  const normal = emptyNormal(size);
  const row = new Float64Array(size).fill(1);
  for (let n = 0; n < count; n++) {
    const value = values[from + n]!;
    if (value - value !== 0) continue;
    for (let c = 0; c < size - 1; c++) row[c] = columns[c]![n]!;
    observe(normal, row, value);
  }
  const amplitudes = solveNormal(normal)?.solution;
  if (amplitudes === undefined) return undefined;
  const residual = new Float64Array(count);
  let squares = 0;
  for (let n = 0; n < count; n++) {
    const value = values[from + n]!;
    if (value - value !== 0) continue;
    let rest = amplitudes[size - 1]! - value;
    for (let c = 0; c < size - 1; c++) rest += amplitudes[c]! * columns[c]![n]!;
    residual[n] = rest;
    squares += rest * rest;
  }
  return { burst, residual, squares };
}

export interface FloatingFit {
  /** Σ residual² over the noise's variance, with what was known beforehand. */
  readonly cost: number;
  readonly parameters: Parameters;
  readonly projected: Projected;
  /** Mean square that is left over the noise's variance. */
  readonly leftOver: number;
  /** Of the parameters without the length, as it stands, [10 × 10], with the noise as it is. */
  readonly covariance: Float64Array | undefined;
}

/** Steps of the parameters from which the slopes are taken, in the parameters' own units; of times in cycles. */
const slopeSteps = [1e-6, 1e-6, 1e-5, 1e-4, 1e-4, 1e-5, 1e-5, 1e-5, 1e-5, 1e-3, 1e-5];
const times = [startAt, 6, lengthAt];

/** Least squares from `start` over a window. Undefined where the start is no coil. */
export function fitFloating(
  search: FloatingSearch,
  start: Parameters,
  window: Window,
  { mostIterations = 12, short = false }: { mostIterations?: number; short?: boolean } = {},
): FloatingFit | undefined {
  const sigma = Math.sqrt(search.noise);
  const count = window.to - window.from;
  const residualsOf = (p: Parameters): Float64Array => {
    const projected = isCoil(search, p) ? project(search, p, window) : undefined;
    const all = new Float64Array(count + priors);
    if (projected === undefined) return all.fill(Number.NaN);
    for (let n = 0; n < count; n++) all[n] = projected.residual[n]! / sigma;
    all.set(priorsOf(search, p, short), count);
    return all;
  };
  if (project(search, start, window) === undefined || !isCoil(search, start)) return undefined;
  const size = start.length;
  const jacobianOf = (p: Parameters, residuals: Float64Array): Float64Array => {
    const jacobian = new Float64Array(residuals.length * size);
    for (let m = 0; m < size; m++) {
      const step = slopeSteps[m]! * (times.includes(m) ? search.cycle : 1);
      const moved = Float64Array.from(p);
      moved[m]! += step;
      const there = residualsOf(moved);
      for (let n = 0; n < residuals.length; n++) jacobian[n * size + m] = (there[n]! - residuals[n]!) / step;
    }
    return jacobian;
  };
  const fit = levenbergMarquardt({ start, residualsOf, jacobianOf, settled: 1e-4, mostIterations });
  const projected = project(search, fit.solution, window);
  if (projected === undefined) return undefined;
  // The length has corners, or no slope at all: its doubt is read off its own squares.
  const normal = emptyNormal(lengthAt);
  for (let n = 0; n < count + priors; n++) observe(normal, fit.jacobian.subarray(n * size, n * size + lengthAt), 0);
  return {
    cost: fit.squares,
    parameters: fit.solution,
    projected,
    leftOver: projected.squares / Math.max(1, count - size) / search.noise,
    covariance: solveNormal(normal)?.inverse,
  };
}
