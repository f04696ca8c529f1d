/** A pair of resonators fitted to the current that a bridge drives through the tank: from the quiet before it to some place of the drive. */
import { differenceSlopes } from "../../numerics/difference-slopes.ts";
import { levenbergMarquardt } from "../../numerics/levenberg-marquardt.ts";
import { emptyNormal, observe, solveNormal } from "../../numerics/normal-equations.ts";
import { type CoupledPair, type StepResponse, stepResponse } from "./pair-answer.ts";
import { type Changes, changesAt } from "./pair-steps.ts";
import { curveOf } from "./square-drive.ts";

export interface DrivenSpan {
  /** NaN where a value does not count. */
  readonly values: Float64Array;
  readonly from: number;
  readonly to: number;
  /** Variance of the noise per value. */
  readonly noise: number;
  /** Values to a cycle. */
  readonly cycle: number;
  /** Charge that the bus has given up to each value, over that of the whole drive. [values] */
  readonly charge: Float64Array;
}

export interface PairPoint {
  readonly pair: CoupledPair;
  /** Of the current, and its offset. */
  readonly scale: number;
  readonly offset: number;
  /** Part by which the bus has sunk at the end of the drive. */
  readonly sag: number;
  readonly start: number;
  /** Of the changes. */
  readonly moves: Float64Array;
}

export interface PairFitted extends PairPoint {
  readonly response: StepResponse;
  /** The start and the changes, and the height of each step. */
  readonly steps: Float64Array;
  readonly heights: Float64Array;
  /** Mean square that is left, over the noise's variance. */
  readonly left: number;
  readonly squares: number;
  /** Of ln(tank), ln(secondary), coupling, ln(tank's Q), ln(secondary's Q) in units of the noise's variance: [5 × 5]. */
  readonly covariance: Float64Array;
}

/** What is known of both Qs before they are read, tank with its bridge first: median and standard deviation of the logarithm. */
const usualQ = [
  { mean: Math.log(60), deviation: 0.6 },
  { mean: Math.log(110), deviation: 0.6 },
] as const;
/** Sag of the bus over a drive: standard deviation. */
const usualSag = 0.3;
/** Frequencies and Qs are looked for within these factors, in logarithms; couplings within these. */
const reach = { frequency: 0.5, leastQ: Math.log(3), mostQ: Math.log(3000), leastK: 0.02, mostK: 0.5 };

const circuit = 5;
/** Places of the other parameters. */
const at = { scale: 5, offset: 6, sag: 7, start: 8, moves: 9 };

/**
 * Levenberg–Marquardt over pair, scale, offset, sag, start and moves.
 *
 * @param most  iterations
 * @returns  undefined where the parameters cannot be told apart
 */
export function fitPair(span: DrivenSpan, changes: Changes, begin: PairPoint, most: number): PairFitted | undefined {
  const problem = new Problem(span, changes, begin);
  const start = problem.parametersOf(begin);
  const residualsOf = (parameters: Float64Array) => problem.residualsOf(parameters);
  if (!Number.isFinite(residualsOf(start)[0]!)) return undefined;
  const fit = levenbergMarquardt({
    start,
    residualsOf,
    jacobianOf: differenceSlopes(residualsOf, problem.steps()),
    settled: 1e-4,
    mostIterations: most,
  });
  const size = start.length;
  const normal = emptyNormal(size);
  for (let row = 0; row < fit.jacobian.length / size; row++)
    observe(normal, fit.jacobian.subarray(row * size, (row + 1) * size), 0);
  const inverse = solveNormal(normal)?.inverse;
  if (inverse === undefined) return undefined;
  const covariance = new Float64Array(circuit ** 2);
  for (let a = 0; a < circuit; a++)
    for (let b = 0; b < circuit; b++) covariance[a * circuit + b] = inverse[a * size + b]!;
  const point = problem.pointOf(fit.solution);
  return {
    ...point,
    ...problem.drivenBy(point),
    squares: fit.squares,
    left: fit.squares / Math.max(1, span.to - span.from - size),
    covariance,
  };
}

/** The model's current from `from` on, without scale and offset. */
export function currentOf(
  response: StepResponse,
  { steps, heights, from, to }: { steps: Float64Array; heights: Float64Array; from: number; to: number },
): Float64Array {
  return curveOf({ ...response, steps }, { heights, from, to, every: 1 });
}

class Problem {
  private readonly span: DrivenSpan;
  private readonly changes: Changes;
  private readonly begin: PairPoint;

  constructor(span: DrivenSpan, changes: Changes, begin: PairPoint) {
    this.span = span;
    this.changes = changes;
    this.begin = begin;
  }

  parametersOf({ pair, scale, offset, sag, start, moves }: PairPoint): Float64Array {
    const { tank, secondary, coupling, tankQ, secondaryQ } = pair;
    return Float64Array.of(
      ...[Math.log(tank), Math.log(secondary), coupling, Math.log(tankQ), Math.log(secondaryQ)],
      ...[scale, offset, sag, start],
      ...moves,
    );
  }

  pointOf(parameters: Float64Array): PairPoint {
    const [tank = 0, secondary = 0, coupling = 0, tankQ = 0, secondaryQ = 0] = parameters;
    return {
      pair: {
        tank: Math.exp(tank),
        secondary: Math.exp(secondary),
        coupling,
        tankQ: Math.exp(tankQ),
        secondaryQ: Math.exp(secondaryQ),
      },
      scale: parameters[at.scale]!,
      offset: parameters[at.offset]!,
      sag: parameters[at.sag]!,
      start: parameters[at.start]!,
      moves: parameters.slice(at.moves),
    };
  }

  drivenBy({ pair, sag, start, moves }: PairPoint): Pick<PairFitted, "response" | "steps" | "heights"> {
    const { charge } = this.span;
    const steps = Float64Array.of(start, ...changesAt(this.changes, moves));
    const heights = new Float64Array(steps.length);
    let level = 0;
    for (let j = 0; j < steps.length; j++) {
      const given = charge[Math.max(0, Math.min(charge.length - 1, Math.round(steps[j]!)))]!;
      const next = (j % 2 === 0 ? 1 : -1) * (1 - sag * given);
      heights[j] = next - level;
      level = next;
    }
    return { response: stepResponse(pair), steps, heights };
  }

  private within(parameters: Float64Array): boolean {
    const { frequency, leastQ, mostQ, leastK, mostK } = reach;
    const centre = Math.log((2 * Math.PI) / this.span.cycle);
    const [tank = 0, secondary = 0, coupling = 0, tankQ = 0, secondaryQ = 0] = parameters;
    return (
      [tank, secondary].every((one) => Math.abs(one - centre) < frequency) &&
      [tankQ, secondaryQ].every((one) => one > leastQ && one < mostQ) &&
      coupling > leastK &&
      coupling < mostK
    );
  }

  /** Values, then what is known beforehand; all over their standard deviations. */
  residualsOf(parameters: Float64Array): Float64Array {
    if (!this.within(parameters)) return Float64Array.of(Number.NaN);
    const { values, from, to, noise } = this.span;
    const { response, steps, heights } = this.drivenBy(this.pointOf(parameters));
    const current = currentOf(response, { steps, heights, from, to });
    const { usual } = this.changes;
    const out = new Float64Array(current.length + usualQ.length + 1 + usual.length);
    const [scale, offset, over] = [parameters[at.scale]!, parameters[at.offset]!, 1 / Math.sqrt(noise)];
    for (let n = 0; n < current.length; n++) {
      const value = values[from + n]!;
      out[n] = value - value === 0 ? (current[n]! * scale + offset - value) * over : 0;
    }
    let next = current.length;
    usualQ.forEach(({ mean, deviation }, n) => {
      out[next++] = (parameters[3 + n]! - mean) / deviation;
    });
    out[next++] = parameters[at.sag]! / usualSag;
    usual.forEach(({ mean, deviation }, m) => {
      out[next++] = (parameters[at.moves + m]! - mean) / deviation;
    });
    return out;
  }

  /** Steps by which slopes are taken. */
  steps(): readonly number[] {
    const { begin, changes, span } = this;
    return [
      ...[1e-5, 1e-5, 1e-5, 1e-3, 1e-3],
      ...[1e-4 * Math.abs(begin.scale), 0.01 * Math.sqrt(span.noise), 1e-3, 1e-3],
      ...changes.usual.map(() => 1e-3),
    ];
  }
}
