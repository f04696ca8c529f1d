/** A whole burst as the answer of resonators to the steps of a square drive: its commutations fitted by least squares. */
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { emptyNormal, type Normal, observe, solveNormal } from "../../numerics/normal-equations.ts";

/** The drive's steps as a function of a few parameters: step `j` happens at `base[j] + Σ basis[j][m]·moves[m]`. */
export interface StepModel {
  readonly base: Float64Array;
  /** [steps][parameters] */
  readonly basis: readonly Float64Array[];
  /** Height of each step, in half the swing of the square. */
  readonly heights: Float64Array;
  /** Of moves that are near 0 beforehand: 1/variance, in units of the noise's variance; 0 for the others. */
  readonly weights?: Float64Array;
}

export interface SquareDrive {
  readonly poles: readonly DampedPole[];
  /** Answer to a step of height 1: Σ Re((real + i·imaginary)·exp(s·t)). */
  readonly real: readonly number[];
  readonly imaginary: readonly number[];
  readonly offset: number;
  /** Places of the steps [values]. */
  readonly steps: Float64Array;
  readonly squares: number;
  /** Values that count. */
  readonly count: number;
  readonly parameters: number;
  readonly moves: Float64Array;
  readonly basis: readonly Float64Array[];
  /** Of the moves, [moves × moves]; times the noise's variance it is the covariance. */
  readonly covariance: Float64Array;
}

/** What is known of a pole beforehand: value and weight (1/variance, in units of the noise's variance) of decay and frequency. */
export interface KnownPole extends DampedPole {
  readonly decayWeight: number;
  readonly angularWeight: number;
}

/**
 * How the channel answers a step, which fixes when it happened: without it a later step of another phase looks the same.
 * `current`: it begins at zero. `loop`: its integral does. `voltage`: it and its slope do. Everything else is left to the fit.
 */
export type StepAnswer = "current" | "loop" | "voltage";

/** Rows over (real, imaginary) of each pole that are zero. */
function constraintsOf(answer: StepAnswer, poles: readonly DampedPole[]): readonly Float64Array[] {
  const row = (pick: (pole: DampedPole) => readonly [number, number]) => Float64Array.from(poles.flatMap(pick));
  if (answer === "loop")
    return [
      row(
        ({ decay, angular }) =>
          [-decay / angular, 1].map((part) => part / (1 + (decay / angular) ** 2)) as [number, number],
      ),
    ];
  const begins = row(() => [1, 0]);
  // Re((re + i·im)·s) with s = −decay + i·angular.
  return answer === "current" ? [begins] : [begins, row(({ decay, angular }) => [-decay / angular, -1])];
}

/** Weight of a constraint in values: far above what the noise moves, far below what the arithmetic bears. */
const constraintWeight = 1e5;

interface Point {
  readonly poles: readonly DampedPole[];
  readonly real: readonly number[];
  readonly imaginary: readonly number[];
  readonly offset: number;
  readonly moves: Float64Array;
}

export interface Span {
  /** NaN where a value does not count. */
  readonly values: Float64Array;
  readonly from: number;
  readonly to: number;
}

/** Least squares over amplitudes alone, everything else given. Undefined where the poles cannot be told apart. */
export function amplitudesOf(
  span: Span,
  {
    poles,
    steps,
    heights,
    every = 1,
    answer,
  }: {
    poles: readonly DampedPole[];
    steps: ArrayLike<number>;
    heights: Float64Array;
    every?: number;
    answer?: StepAnswer;
  },
): { readonly point: Omit<Point, "moves" | "poles">; readonly squares: number } | undefined {
  const { values, from, to } = span;
  const size = 2 * poles.length + 1;
  const normal = emptyNormal(size);
  const row = new Float64Array(size);
  row[size - 1] = 1;
  const sums = new StepSums(poles, { steps, heights, from, every });
  for (let n = from; n < to; n += every) {
    sums.into(row);
    const value = values[n]!;
    if (value - value === 0) observe(normal, row, value);
    sums.advance();
  }
  if (answer !== undefined)
    for (const constraint of constraintsOf(answer, poles)) {
      row.fill(0);
      row.set(constraint.map((part) => part * Math.sqrt(constraintWeight * (to - from))));
      observe(normal, row, 0);
    }
  const solved = solveNormal(normal);
  if (solved === undefined) return undefined;
  let explained = 0;
  for (let a = 0; a < size; a++) explained += solved.solution[a]! * normal.side[a]!;
  return {
    point: {
      real: poles.map((_, k) => solved.solution[2 * k]!),
      imaginary: poles.map((_, k) => solved.solution[2 * k + 1]!),
      offset: solved.solution[size - 1]!,
    },
    squares: (normal.squares - explained) * every,
  };
}

/** Σ heights·exp(s·(n − step)) over the steps that have been, for every pole. */
class StepSums {
  private next = 0;
  private at: number;
  private readonly sums: Float64Array;
  private readonly turns: Float64Array;
  private readonly poles: readonly DampedPole[];
  private readonly steps: ArrayLike<number>;
  private readonly heights: Float64Array;
  private readonly every: number;

  constructor(
    poles: readonly DampedPole[],
    { steps, heights, from, every }: { steps: ArrayLike<number>; heights: Float64Array; from: number; every: number },
  ) {
    this.poles = poles;
    this.steps = steps;
    this.heights = heights;
    this.every = every;
    this.at = from;
    this.sums = new Float64Array(2 * poles.length);
    this.turns = new Float64Array(2 * poles.length);
    for (let k = 0; k < poles.length; k++) {
      const { decay, angular } = poles[k]!;
      const size = Math.exp(-decay * every);
      this.turns[2 * k] = size * Math.cos(angular * every);
      this.turns[2 * k + 1] = size * Math.sin(angular * every);
    }
    this.add();
  }

  /** Real and negative imaginary part of every pole's sum: the columns that the amplitude's parts are multiplied with. */
  into(row: Float64Array): void {
    const { sums } = this;
    for (let k = 0; k < sums.length; k += 2) {
      row[k] = sums[k]!;
      row[k + 1] = -sums[k + 1]!;
    }
  }

  advance(): void {
    this.at += this.every;
    // Before the first step there is nothing to turn.
    if (this.next > 0) {
      const { sums, turns } = this;
      for (let k = 0; k < sums.length; k += 2) {
        const re = sums[k]!;
        const im = sums[k + 1]!;
        const c = turns[k]!;
        const s = turns[k + 1]!;
        sums[k] = re * c - im * s;
        sums[k + 1] = re * s + im * c;
      }
    }
    if (this.next < this.steps.length && this.steps[this.next]! <= this.at) this.add();
  }

  private add(): void {
    const { poles, steps, heights, sums, at } = this;
    for (; this.next < steps.length && steps[this.next]! <= at; this.next++) {
      const since = at - steps[this.next]!;
      for (let k = 0; k < poles.length; k++) {
        const { decay, angular } = poles[k]!;
        const size = heights[this.next]! * Math.exp(-decay * since);
        sums[2 * k]! += size * Math.cos(angular * since);
        sums[2 * k + 1]! += size * Math.sin(angular * since);
      }
    }
  }
}

/** The fitted answer without its offset, at from, from + every, … */
export function curveOf(
  { poles, real, imaginary, steps }: Pick<SquareDrive, "poles" | "real" | "imaginary" | "steps">,
  { heights, from, to, every }: { heights: Float64Array; from: number; to: number; every: number },
): Float64Array {
  const sums = new StepSums(poles, { steps, heights, from, every });
  const row = new Float64Array(2 * poles.length);
  const curve = new Float64Array(Math.floor((to - from) / every));
  for (let n = 0; n < curve.length; n++) {
    sums.into(row);
    for (let k = 0; k < poles.length; k++) curve[n]! += real[k]! * row[2 * k]! + imaginary[k]! * row[2 * k + 1]!;
    sums.advance();
  }
  return curve;
}

function stepsAt({ base, basis }: StepModel, moves: Float64Array): Float64Array {
  return base.map((at, j) => moves.reduce((sum, move, m) => sum + basis[j]![m]! * move, at));
}

/** Normal equations of all parameters about a point: amplitudes and offset, decay and frequency of each pole, moves. */
function linearised(
  span: Span,
  model: StepModel,
  point: Point,
  known: readonly KnownPole[],
  answer: StepAnswer,
): Normal {
  const { values, from, to } = span;
  const { poles, real, imaginary, offset, moves } = point;
  const { basis, heights } = model;
  const steps = stepsAt(model, moves);
  const [count, free] = [poles.length, moves.length];
  const size = 4 * count + 1 + free;
  const normal = emptyNormal(size);
  const row = new Float64Array(size);
  // For each pole: Σ h·E, Σ h·(n − step)·E, and Σ h·basis_m·E, E = exp(s·(n − step)); all turn alike.
  const width = 2 * (2 + free);
  const sums = new Float64Array(count * width);
  const turnRe = poles.map(({ decay, angular }) => Math.exp(-decay) * Math.cos(angular));
  const turnIm = poles.map(({ decay, angular }) => Math.exp(-decay) * Math.sin(angular));
  row[2 * count] = 1;
  let next = 0;
  for (let n = from; n < to; n++) {
    const first = next;
    while (next < steps.length && steps[next]! <= n) next++;
    let modelled = offset;
    for (let m = 4 * count + 1; m < size; m++) row[m] = 0;
    for (let k = 0; k < count; k++) {
      const at = k * width;
      const { decay, angular } = poles[k]!;
      if (first > 0) {
        const c = turnRe[k]!;
        const s = turnIm[k]!;
        sums[at + 2]! += sums[at]!;
        sums[at + 3]! += sums[at + 1]!;
        for (let i = at; i < at + width; i += 2) {
          const re = sums[i]!;
          const im = sums[i + 1]!;
          sums[i] = re * c - im * s;
          sums[i + 1] = re * s + im * c;
        }
      }
      for (let j = first; j < next; j++) {
        const since = n - steps[j]!;
        const h = heights[j]! * Math.exp(-decay * since);
        const re = h * Math.cos(angular * since);
        const im = h * Math.sin(angular * since);
        sums[at]! += re;
        sums[at + 1]! += im;
        sums[at + 2]! += since * re;
        sums[at + 3]! += since * im;
        for (let m = 0; m < free; m++) {
          sums[at + 4 + 2 * m]! += basis[j]![m]! * re;
          sums[at + 5 + 2 * m]! += basis[j]![m]! * im;
        }
      }
      const a = real[k]!;
      const b = imaginary[k]!;
      const re = sums[at]!;
      const im = sums[at + 1]!;
      modelled += a * re - b * im;
      row[2 * k] = re;
      row[2 * k + 1] = -im;
      // d/ddecay = −Re(A·D), d/dangular = Re(i·A·D).
      row[2 * count + 1 + 2 * k] = -(a * sums[at + 2]! - b * sums[at + 3]!);
      row[2 * count + 2 + 2 * k] = -(a * sums[at + 3]! + b * sums[at + 2]!);
      // −A·s, s = −decay + i·angular.
      const gRe = a * decay + b * angular;
      const gIm = b * decay - a * angular;
      for (let m = 0; m < free; m++)
        row[4 * count + 1 + m]! += gRe * sums[at + 4 + 2 * m]! - gIm * sums[at + 5 + 2 * m]!;
    }
    const value = values[n]!;
    if (value - value === 0) observe(normal, row, value - modelled);
  }
  for (const constraint of constraintsOf(answer, poles)) {
    row.fill(0);
    let rest = 0;
    for (let k = 0; k < count; k++) rest -= constraint[2 * k]! * real[k]! + constraint[2 * k + 1]! * imaginary[k]!;
    const weight = Math.sqrt(constraintWeight * (to - from));
    row.set(constraint.map((part) => part * weight));
    observe(normal, row, rest * weight);
  }
  for (let m = 0; m < free; m++) {
    const [at, weight] = [4 * count + 1 + m, model.weights?.[m] ?? 0];
    normal.matrix[at * size + at]! += weight;
    normal.side[at]! -= weight * moves[m]!;
    normal.squares += weight * moves[m]! ** 2;
  }
  for (const [k, one] of known.entries()) {
    for (const [at, weight, off] of [
      [2 * count + 1 + 2 * k, one.decayWeight, one.decay - poles[k]!.decay],
      [2 * count + 2 + 2 * k, one.angularWeight, one.angular - poles[k]!.angular],
    ] as const) {
      normal.matrix[at * size + at]! += weight;
      normal.side[at]! += weight * off;
      normal.squares += weight * off * off;
    }
  }
  return normal;
}

const mostTrials = 6;

/**
 * Gauss–Newton with Levenberg's damping over amplitudes, poles and moves together.
 *
 * @param span    the burst, from the quiet before it into its free decay; an end before the free decay leaves the end of the drive open
 * @param known   poles to begin from, with what is known of them
 * @param options  `rounds`: at most; `enough`: the fit ends once a round gains less than this many variances of what is left
 * @returns  undefined where the parameters cannot be told apart
 */
export function fitSquareDrive(
  span: Span,
  model: StepModel,
  known: readonly KnownPole[],
  {
    moves: startMoves,
    rounds = 12,
    enough = 0.01,
    answer,
  }: { moves: Float64Array; rounds?: number; enough?: number; answer: StepAnswer },
): SquareDrive | undefined {
  const started = amplitudesOf(span, {
    poles: known,
    steps: stepsAt(model, startMoves),
    heights: model.heights,
    answer,
  });
  if (started === undefined) return undefined;
  let point: Point = {
    ...started.point,
    poles: known.map(({ decay, angular }) => ({ decay, angular })),
    moves: startMoves,
  };
  const count = known.length;
  let normal = linearised(span, model, point, known, answer);
  let damping = 1e-4;
  for (let round = 0; round < rounds; round++) {
    let gain = 0;
    for (let trial = 0; trial < mostTrials; trial++) {
      const solved = solveNormal(normal, { damping });
      if (solved === undefined) {
        damping = Math.max(damping, 1e-6) * 20;
        continue;
      }
      const candidate = moved(point, solved.solution, count);
      const next = candidate === undefined ? undefined : linearised(span, model, candidate, known, answer);
      if (candidate !== undefined && next !== undefined && next.squares <= normal.squares) {
        gain = normal.squares - next.squares;
        point = candidate;
        normal = next;
        damping = Math.max(1e-9, damping / 20);
        break;
      }
      damping *= 20;
    }
    if (gain <= (enough * normal.squares) / (span.to - span.from)) break;
  }
  const solved = solveNormal(normal);
  if (solved === undefined) return undefined;
  const size = 4 * count + 1 + startMoves.length;
  const from = 4 * count + 1;
  const covariance = new Float64Array(startMoves.length ** 2);
  for (let a = 0; a < startMoves.length; a++)
    for (let b = 0; b < startMoves.length; b++)
      covariance[a * startMoves.length + b] = solved.inverse[(from + a) * size + from + b]!;
  return {
    ...point,
    steps: stepsAt(model, point.moves),
    basis: model.basis,
    squares: normal.squares,
    count: span.to - span.from,
    parameters: size,
    covariance,
  };
}

function moved(point: Point, step: Float64Array, count: number): Point | undefined {
  const poles = point.poles.map(({ decay, angular }, k) => ({
    decay: decay + step[2 * count + 1 + 2 * k]!,
    angular: angular + step[2 * count + 2 + 2 * k]!,
  }));
  if (!poles.every(({ decay, angular }) => decay > -0.02 && decay < 1 && angular > 0 && angular < Math.PI))
    return undefined;
  return {
    poles,
    real: point.real.map((value, k) => value + step[2 * k]!),
    imaginary: point.imaginary.map((value, k) => value + step[2 * k + 1]!),
    offset: point.offset + step[2 * count]!,
    moves: point.moves.map((value, m) => value + step[4 * count + 1 + m]!),
  };
}
