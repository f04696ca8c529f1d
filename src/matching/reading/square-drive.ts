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
  /** Where the steps follow from the poles: the moves from `from` on are the changes of the poles, decay and frequency of each, from these. */
  readonly tied?: { readonly from: number; readonly poles: readonly DampedPole[] };
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
  /** The same of all: real and imaginary by pole, offset, decay and angular frequency by pole, moves. [parameters × parameters] */
  readonly inverse: Float64Array;
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
  const size = 2 * poles.length + 1;
  const normal = emptyNormal(size);
  observeSums(normal, new StepSums(poles, { steps, heights, from: span.from, every }), span, every);
  if (answer !== undefined) observeConstraints(normal, { answer, poles, span });
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

/** Loops over the values are functions of their own: a short one is compiled before the loop is over. */
function observeSums(normal: Normal, sums: StepSums, { values, from, to }: Span, every: number): void {
  const row = new Float64Array(normal.side.length);
  row[row.length - 1] = 1;
  for (let n = from; n < to; n += every) {
    sums.into(row);
    const value = values[n]!;
    if (value - value === 0) observe(normal, row, value);
    sums.advance();
  }
}

/** What the answer fixes. @param amplitudes  those that the unknown ones are counted from */
function observeConstraints(
  normal: Normal,
  {
    answer,
    poles,
    span,
    amplitudes,
  }: { answer: StepAnswer; poles: readonly DampedPole[]; span: Span; amplitudes?: Float64Array },
): void {
  const weight = Math.sqrt(constraintWeight * (span.to - span.from));
  for (const constraint of constraintsOf(answer, poles)) {
    const row = new Float64Array(normal.side.length);
    let rest = 0;
    for (let k = 0; k < constraint.length; k++) {
      row[k] = weight * constraint[k]!;
      rest -= constraint[k]! * (amplitudes?.[k] ?? 0);
    }
    observe(normal, row, rest * weight);
  }
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

/** A point as the loop over the values takes it. */
interface Drawn {
  readonly steps: Float64Array;
  readonly heights: Float64Array;
  /** [steps × moves] */
  readonly basis: Float64Array;
  /** By pole. */
  readonly decay: Float64Array;
  readonly angular: Float64Array;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly offset: number;
}

function drawn(model: StepModel, { poles, real, imaginary, offset, moves }: Point): Drawn {
  const basis = new Float64Array(model.basis.length * moves.length);
  for (let j = 0; j < model.basis.length; j++) basis.set(model.basis[j]!, j * moves.length);
  return {
    steps: stepsAt(model, moves),
    heights: model.heights,
    basis,
    decay: Float64Array.from(poles, (pole) => pole.decay),
    angular: Float64Array.from(poles, (pole) => pole.angular),
    real: Float64Array.from(real),
    imaginary: Float64Array.from(imaginary),
    offset,
  };
}

/** Normal equations of all parameters about a point: amplitudes and offset, decay and frequency of each pole, moves. */
function linearised(
  span: Span,
  model: StepModel,
  point: Point,
  known: readonly KnownPole[],
  answer: StepAnswer,
): Normal {
  const { poles, real, imaginary, moves } = point;
  const count = poles.length;
  const normal = emptyNormal(4 * count + 1 + moves.length);
  observeSpan(normal, span, drawn(model, point));
  const amplitudes = Float64Array.from({ length: 2 * count }, (_, i) => (i % 2 === 0 ? real : imaginary)[i >> 1]!);
  observeConstraints(normal, { answer, poles, span, amplitudes });
  for (let m = 0; m < moves.length; m++)
    observePrior(normal, 4 * count + 1 + m, { weight: model.weights?.[m] ?? 0, off: -moves[m]! });
  for (let k = 0; k < count; k++) {
    const { decay, angular, decayWeight, angularWeight } = known[k]!;
    observePrior(normal, 2 * count + 1 + 2 * k, { weight: decayWeight, off: decay - poles[k]!.decay });
    observePrior(normal, 2 * count + 2 + 2 * k, { weight: angularWeight, off: angular - poles[k]!.angular });
  }
  if (model.tied !== undefined) observeTies(normal, point, model.tied);
  return normal;
}

/** By how much a pole and the move that stands for its change may differ, radians per value, over the noise's standard deviation. */
const tieSlack = 1e-6;

function observeTies(
  normal: Normal,
  { poles, moves }: Point,
  { from, poles: about }: { from: number; poles: readonly DampedPole[] },
): void {
  const size = normal.side.length;
  const changes = poles.flatMap(({ decay, angular }, k) => [decay - about[k]!.decay, angular - about[k]!.angular]);
  for (const [p, change] of changes.entries()) {
    const row = new Float64Array(size);
    row[changes.length + 1 + p] = 1 / tieSlack;
    row[size - moves.length + from + p] = -1 / tieSlack;
    observe(normal, row, (moves[from + p]! - change) / tieSlack);
  }
}

/** A parameter that is known beforehand, and how far from it the point is. */
function observePrior(normal: Normal, at: number, { weight, off }: { weight: number; off: number }): void {
  normal.matrix[at * normal.side.length + at]! += weight;
  normal.side[at]! += weight * off;
  normal.squares += weight * off * off;
}

/** Every value of the span against the curve of a point, with the curve's slopes by each parameter. */
function observeSpan(normal: Normal, { values, from, to }: Span, point: Drawn): void {
  const { steps, heights, basis, decay, angular, real, imaginary } = point;
  const count = decay.length;
  const size = normal.side.length;
  const free = size - 4 * count - 1;
  const row = new Float64Array(size);
  // For each pole: Σ h·E, Σ h·(n − step)·E, and Σ h·basis_m·E, E = exp(s·(n − step)); all turn alike.
  const width = 2 * (2 + free);
  const sums = new Float64Array(count * width);
  const turnRe = decay.map((each, k) => Math.exp(-each) * Math.cos(angular[k]!));
  const turnIm = decay.map((each, k) => Math.exp(-each) * Math.sin(angular[k]!));
  row[2 * count] = 1;
  let next = 0;
  for (let n = from; n < to; n++) {
    if (next > 0) for (let k = 0; k < count; k++) turnOn(sums, { at: k * width, width, c: turnRe[k]!, s: turnIm[k]! });
    for (; next < steps.length && steps[next]! <= n; next++) {
      const since = n - steps[next]!;
      for (let k = 0; k < count; k++) {
        const at = k * width;
        const h = heights[next]! * Math.exp(-decay[k]! * since);
        const re = h * Math.cos(angular[k]! * since);
        const im = h * Math.sin(angular[k]! * since);
        sums[at]! += re;
        sums[at + 1]! += im;
        sums[at + 2]! += since * re;
        sums[at + 3]! += since * im;
        for (let m = 0; m < free; m++) {
          sums[at + 4 + 2 * m]! += basis[next * free + m]! * re;
          sums[at + 5 + 2 * m]! += basis[next * free + m]! * im;
        }
      }
    }
    const value = values[n]!;
    if (value - value !== 0) continue;
    let modelled = point.offset;
    for (let m = size - free; m < size; m++) row[m] = 0;
    for (let k = 0; k < count; k++) {
      const at = k * width;
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
      const gRe = a * decay[k]! + b * angular[k]!;
      const gIm = b * decay[k]! - a * angular[k]!;
      for (let m = 0; m < free; m++) row[size - free + m]! += gRe * sums[at + 4 + 2 * m]! - gIm * sums[at + 5 + 2 * m]!;
    }
    observe(normal, row, value - modelled);
  }
}

/** A pole's sums one value later: Σ h·(n − step)·E grows by Σ h·E first. */
function turnOn(sums: Float64Array, { at, width, c, s }: { at: number; width: number; c: number; s: number }): void {
  sums[at + 2]! += sums[at]!;
  sums[at + 3]! += sums[at + 1]!;
  for (let i = at; i < at + width; i += 2) {
    const re = sums[i]!;
    const im = sums[i + 1]!;
    sums[i] = re * c - im * s;
    sums[i + 1] = re * s + im * c;
  }
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
    inverse: solved.inverse,
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
