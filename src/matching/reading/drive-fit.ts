/** The drive of a burst from the whole of it: when the bridge commutated, evenly or with the current that it drives. */
import { analyticSignal } from "../../numerics/analytic-signal.ts";
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { driveStart } from "./drive.ts";
import type { FreeDecay } from "./ring-down.ts";
import {
  amplitudesOf,
  curveOf,
  fitSquareDrive,
  type KnownPole,
  type Span,
  type SquareDrive,
  type StepAnswer,
  type StepModel,
} from "./square-drive.ts";

export interface DriveFitted {
  /** Places of start and end, with their standard errors. */
  readonly start: { readonly at: number; readonly error: number };
  readonly end: { readonly at: number; readonly error: number };
  readonly length: { readonly value: number; readonly error: number };
  /** Mean of the commutations, cycles per value. */
  readonly frequency: { readonly value: number; readonly error: number };
  /** What one burst says of the next. */
  readonly usual: Usual;
}

export interface Usual {
  readonly by: "even" | "current";
  readonly answer: StepAnswer;
  /** Length of a half-cycle [values]. */
  readonly half: number;
  /** Of the drive's second pole, over the first. */
  readonly beside: number | undefined;
}

export interface DriveSearch {
  /** NaN where a value does not count; from the quiet before the burst into its free decay. */
  readonly values: Float64Array;
  readonly decay: FreeDecay;
  /** Where the burst begins to stand out, and from where on the decay alone explains it. */
  readonly startNear: number;
  readonly endNear: number;
  /** Values to a cycle. */
  readonly cycle: number;
  /** Variance of the noise per value, and the greatest value. */
  readonly noise: number;
  readonly peak: number;
  /** What the channel may be. */
  readonly answers: readonly StepAnswer[];
  readonly usual?: Usual;
}

/** Cycles before the start and of free decay that are fitted with the drive. */
const before = 5;
const after = 14;
/** Where a second pole is looked for that the decay does not show, over the first. */
const beside = [0.8, 0.86, 0.91, 1.09, 1.15, 1.24];
/** A drive is looked for this far from the strongest pole. */
const reach = 0.14;
/** Cycles by which start and end may be wrong beforehand. */
const slack = 3;
const endSlack = 5;
const fewestCycles = 4;

/** Undefined where no square drive explains the burst. */
export function fitDrive(search: DriveSearch): DriveFitted | undefined {
  const { cycle, startNear, endNear, usual, answers } = search;
  if (endNear - startNear < fewestCycles * cycle || startNear < 2 * cycle || !(search.noise > 0)) return undefined;
  const known = knownPoles(search);
  const even = usual?.by === "current" ? undefined : evenDrive(search, known);
  if (even !== undefined && isExplained(search, even)) return resultOf(search, even);
  const following = answers.includes("current") && known.length > 1 ? followingDrive(search, known) : undefined;
  return following !== undefined && isExplained(search, following) ? resultOf(search, following) : undefined;
}

function knownPoles({ decay: { fit, variance }, noise }: DriveSearch): readonly KnownPole[] {
  const size = 2 * fit.terms.length;
  return fit.terms.map(({ decay, angular }, k) => ({
    decay,
    angular,
    decayWeight: noise / (variance * fit.covariance[2 * k * (size + 1)]!),
    angularWeight: noise / (variance * fit.covariance[(2 * k + 1) * (size + 1)]!),
  }));
}

interface Fitted {
  readonly drive: SquareDrive;
  readonly by: Usual["by"];
  readonly answer: StepAnswer;
  readonly beside: number | undefined;
}

/** Residue of a drive that is explained: over the noise's variance, and over the greatest value where a channel is a little bent. */
const explainedOver = 1.35;
const bent = 0.0025;

function isExplained({ noise, peak }: DriveSearch, { drive }: Fitted): boolean {
  return drive.squares / (drive.count - drive.parameters) < explainedOver * noise + (bent * peak) ** 2;
}

/** Level of the bridge before and after a drive: between the rails, or at the lower one. */
type Level = 0 | -1;
const levels: readonly Level[] = [0, -1];

function heightsOf(count: number, level: Level): Float64Array {
  return Float64Array.from({ length: count }, (_, j) => (j === 0 ? 1 - level : j % 2 === 1 ? -2 : 2));
}

const evenSteps = (at: number, half: number, until: number) =>
  Float64Array.from({ length: Math.max(1, Math.ceil((until - at) / half)) }, (_, j) => at + j * half);

interface EvenStart {
  readonly poles: readonly KnownPole[];
  readonly at: number;
  readonly half: number;
  readonly beside: number | undefined;
}

function evenDrive(search: DriveSearch, known: readonly KnownPole[]): Fitted | undefined {
  const { cycle, startNear, values, usual } = search;
  const driven: Span = { values, from: Math.max(0, Math.floor(startNear - before * cycle)), to: surelyDriven(search) };
  const rough = roughEven(search, known, driven);
  if (rough === undefined) return undefined;
  let best: { drive: SquareDrive; level: Level; answer: StepAnswer } | undefined;
  for (const answer of usual === undefined ? search.answers : [usual.answer]) {
    // Start and frequency depend on each other where both are rough: one after the other, twice.
    let refined = rough;
    for (let round = 0; round < 2; round++) {
      const start = startOf(driven, search, { rough: refined, answer });
      if (start === undefined) break;
      refined = { ...refined, at: start.at, half: nearestHalf(driven, { ...start, rough: refined, answer }) };
    }
    // A half-cycle more or fewer at the start, and the level before it, look much alike until everything fits.
    for (const level of levels) {
      const near = evenFrom(driven, { ...refined, level, answer });
      for (const more of [0, -1, 1]) {
        const drive =
          more === 0 || near === undefined ? near : shifted(driven, near, { more, level, poles: rough.poles, answer });
        if (drive !== undefined && drive.squares < (best?.drive.squares ?? Number.POSITIVE_INFINITY))
          best = { drive, level, answer };
      }
      if (best !== undefined && best.drive.squares < explainedOver * search.noise * best.drive.count) break;
    }
  }
  if (best === undefined) return undefined;
  const { drive, level, answer } = best;
  const [at, half] = [drive.moves[0]!, drive.moves[1]!];
  const end = endOf(search, {
    poles: drive.poles,
    answer,
    level,
    within: endSlack * cycle,
    stepsUntil: (until) => evenSteps(at, half, until),
  });
  if (end === undefined) return undefined;
  const count = end.steps.length;
  const model: StepModel = {
    base: new Float64Array(count + 1),
    basis: Array.from({ length: count + 1 }, (_, j) =>
      j === count ? Float64Array.of(0, 0, 1) : Float64Array.of(1, j, 0),
    ),
    heights: end.heights,
  };
  const whole = fitSquareDrive(wholeOf(search), model, rough.poles, {
    moves: Float64Array.of(at, half, end.at),
    answer,
  });
  return whole === undefined ? undefined : { drive: whole, by: "even", answer, beside: rough.beside };
}

/** Up to where nothing but the drive is fitted: the end is somewhere behind. */
function surelyDriven({ cycle, startNear, endNear }: DriveSearch): number {
  return Math.floor(endNear - Math.min(endSlack * cycle, (endNear - startNear) / 4));
}

function wholeOf({ values, cycle, startNear, endNear }: DriveSearch): Span {
  return {
    values,
    from: Math.max(0, Math.floor(startNear - before * cycle)),
    to: Math.min(values.length, Math.ceil(endNear + after * cycle)),
  };
}

/** Frequency of an even drive. Where it starts hardly matters here: a quarter of a cycle reaches every phase. */
function roughEven(
  { cycle, startNear, noise, usual }: DriveSearch,
  known: readonly KnownPole[],
  driven: Span,
): EvenStart | undefined {
  const [first] = known;
  if (first === undefined) return undefined;
  const parts = known.length > 1 ? [undefined] : usual?.beside === undefined ? beside : [usual.beside];
  const middle = usual?.half ?? Math.PI / first.angular;
  const width = usual === undefined ? reach : 0.02;
  const stride = (0.3 * middle * middle) / Math.max(driven.to - startNear, 1);
  let best: (EvenStart & { squares: number }) | undefined;
  for (const part of parts) {
    const weak = { decayWeight: (0.1 * noise) / first.decay ** 2, angularWeight: 0 };
    const poles = part === undefined ? known : [first, { ...weak, decay: first.decay, angular: part * first.angular }];
    for (let half = middle * (1 - width); half <= middle * (1 + width); half += stride)
      for (const at of [startNear, startNear + cycle / 4]) {
        const steps = evenSteps(at, half, driven.to);
        const found = amplitudesOf(driven, { poles, steps, heights: heightsOf(steps.length, 0), every: 2 });
        if (found !== undefined && found.squares < (best?.squares ?? Number.POSITIVE_INFINITY))
          best = { poles, at, half, beside: part, squares: found.squares };
      }
  }
  return best;
}

/** Start and level before it, with the frequency as it stands. */
function startOf(
  span: Span,
  { cycle, startNear }: DriveSearch,
  { rough: { poles, half }, answer }: { rough: EvenStart; answer: StepAnswer },
): { at: number; level: Level } | undefined {
  let best: { at: number; level: Level; squares: number } | undefined;
  for (let at = startNear - slack * cycle; at <= startNear + (slack / 2) * cycle; at += cycle / 10)
    for (const level of levels) {
      const steps = evenSteps(at, half, span.to);
      const found = amplitudesOf(span, { poles, steps, heights: heightsOf(steps.length, level), answer, every: 2 });
      if (found !== undefined && found.squares < (best?.squares ?? Number.POSITIVE_INFINITY))
        best = { at, level, squares: found.squares };
    }
  return best;
}

function shifted(
  span: Span,
  { moves }: SquareDrive,
  { more, level, poles, answer }: { more: number; level: Level; poles: readonly KnownPole[]; answer: StepAnswer },
): SquareDrive | undefined {
  const half = moves[1]!;
  return evenFrom(span, { at: moves[0]! + more * half, half, level, poles, answer });
}

function evenFrom(
  span: Span,
  {
    at,
    half,
    level,
    poles,
    answer,
  }: { at: number; half: number; level: Level; poles: readonly KnownPole[]; answer: StepAnswer },
): SquareDrive | undefined {
  const count = evenSteps(at, half, span.to).length;
  const model: StepModel = {
    base: new Float64Array(count),
    basis: Array.from({ length: count }, (_, j) => Float64Array.of(1, j)),
    heights: heightsOf(count, level),
  };
  return fitSquareDrive(span, model, poles, { moves: Float64Array.of(at, half), answer });
}

/** Half-cycles by which the last commutation may be off once the start is known, and steps in which it is looked for. */
const lastOff = 1.2;
const lastSteps = 10;

function nearestHalf(
  span: Span,
  { at, level, rough: { poles, half }, answer }: { at: number; level: Level; rough: EvenStart; answer: StepAnswer },
): number {
  const count = (span.to - at) / half;
  let best = { half, squares: Number.POSITIVE_INFINITY };
  for (let n = -lastSteps; n <= lastSteps; n++) {
    const tried = half * (1 + (n * lastOff) / lastSteps / count);
    const steps = evenSteps(at, tried, span.to);
    const found = amplitudesOf(span, { poles, steps, heights: heightsOf(steps.length, level), answer });
    if (found !== undefined && found.squares < best.squares) best = { half: tried, squares: found.squares };
  }
  return best.half;
}

interface End {
  readonly at: number;
  readonly steps: Float64Array;
  /** Of the steps and of the end. */
  readonly heights: Float64Array;
}

/** The end: looked for on a grid with everything else as it stands. */
function endOf(
  { values, cycle, endNear }: DriveSearch,
  {
    poles,
    answer,
    level,
    within,
    stepsUntil,
  }: {
    poles: readonly DampedPole[];
    answer: StepAnswer;
    level: Level;
    /** How much earlier it may be. */
    within: number;
    stepsUntil: (until: number) => Float64Array;
  },
): End | undefined {
  const span: Span = {
    values,
    from: Math.max(0, Math.floor(endNear - within - slack * cycle)),
    to: Math.min(values.length, Math.ceil(endNear + 2 * slack * cycle)),
  };
  let best: (End & { squares: number }) | undefined;
  for (let at = endNear - within; at <= endNear + Math.min(within, slack * cycle); at += cycle / 12) {
    const steps = stepsUntil(at);
    if (steps.length < 4) continue;
    for (const last of levels) {
      const now = steps.length % 2 === 1 ? 1 : -1;
      if (now === last) continue;
      const heights = Float64Array.of(...heightsOf(steps.length, level), last - now);
      const found = amplitudesOf(span, { poles, steps: Float64Array.of(...steps, at), heights, answer });
      if (found !== undefined && found.squares < (best?.squares ?? Number.POSITIVE_INFINITY))
        best = { at, steps, heights, squares: found.squares };
    }
  }
  return best;
}

/** Times that the zero crossings are taken anew from the model. */
const rounds = 4;
/** Values to a value at which its zeros are looked for. */
const fine = 0.2;

/** A bridge that changes a little after each zero of its own current: always the same delay, and more of it where the current is weak. */
function followingDrive(search: DriveSearch, known: readonly KnownPole[]): Fitted | undefined {
  const { values, cycle, startNear, endNear } = search;
  const edge = driveStart(
    { values, decay: search.decay.fit, decayFrom: endNear, noise: search.noise, cycle, length: endNear - startNear },
    startNear,
  );
  if (edge === undefined) return undefined;
  const zeros = zerosOf(smoothed(values, cycle), {
    from: startNear - slack * cycle,
    to: endNear + cycle,
    every: 1,
    origin: 0,
    apart: cycle / 4,
  });
  let best: Following | undefined;
  for (const more of [0, -1, 1]) {
    const at = edge.at + (more * cycle) / 2;
    const begun: Following = {
      zeros: zeros.filter((zero) => zero.at > at + cycle / 4),
      moves: Float64Array.of(at, 0, 0, endNear),
      poles: known,
      level: 0,
    };
    const once = nextFollowing(search, known, begun, endSlack * cycle);
    if (once?.drive !== undefined && once.drive.squares < (best?.drive?.squares ?? Number.POSITIVE_INFINITY))
      best = once;
  }
  for (let round = 1; round < rounds && best !== undefined; round++)
    best = nextFollowing(search, known, best, cycle) ?? best;
  return best?.drive === undefined
    ? undefined
    : { drive: best.drive, by: "current", answer: "current", beside: undefined };
}

interface Following {
  readonly zeros: readonly Zero[];
  /** Start, delay, its growth as the current is smaller, end. */
  readonly moves: Float64Array;
  readonly poles: readonly DampedPole[];
  readonly level: Level;
  readonly drive?: SquareDrive;
}

/** One round: the end, the fit, and the zeros of what was fitted. */
function nextFollowing(
  search: DriveSearch,
  known: readonly KnownPole[],
  { zeros, moves, poles, level }: Following,
  within: number,
): Following | undefined {
  if (zeros.length < 5) return undefined;
  const { cycle } = search;
  const span = wholeOf(search);
  const { basis, base } = followingSteps(zeros);
  const commutations = base.map((at, j) => at + basis[j]!.reduce((sum, part, m) => sum + part * moves[m]!, 0));
  const end = endOf(
    { ...search, endNear: moves[3]! },
    { poles, answer: "current", level, within, stepsUntil: (until) => commutations.filter((at) => at < until) },
  );
  if (end === undefined) return undefined;
  const count = end.steps.length;
  const model: StepModel = {
    base: Float64Array.of(...base.subarray(0, count), 0),
    basis: [...basis.slice(0, count), Float64Array.of(0, 0, 0, 1)],
    heights: end.heights,
  };
  const drive = fitSquareDrive(span, model, known, {
    moves: moves.map((move, m) => (m === 3 ? end.at : move)),
    answer: "current",
    rounds: 4,
  });
  if (drive === undefined) return undefined;
  const curve = curveOf(drive, { heights: end.heights, from: span.from, to: span.to, every: fine });
  return {
    zeros: zerosOf(curve, {
      from: drive.moves[0]! + cycle / 4,
      to: drive.moves[3]! + cycle,
      apart: cycle / 4,
      every: fine,
      origin: span.from,
    }),
    moves: drive.moves,
    poles: drive.poles,
    level,
    drive,
  };
}

/** Start, then a step for each zero: by one delay, and by one that grows as the current is smaller. */
function followingSteps(zeros: readonly Zero[]): Pick<StepModel, "base" | "basis"> {
  const least = zeros.reduce((low, { height }) => Math.min(low, height), Number.POSITIVE_INFINITY);
  return {
    base: Float64Array.of(0, ...zeros.map(({ at }) => at)),
    basis: [Float64Array.of(1, 0, 0, 0), ...zeros.map(({ height }) => Float64Array.of(0, 1, least / height, 0))],
  };
}

interface Zero {
  readonly at: number;
  /** Greatest value of the half-cycle before it. */
  readonly height: number;
}

/** Zeros of a curve whose first value is at `origin` and whose values are `every` apart. */
function zerosOf(
  curve: Float64Array,
  { from, to, every, origin, apart }: { from: number; to: number; every: number; origin: number; apart: number },
): readonly Zero[] {
  const zeros: Zero[] = [];
  let height = 0;
  for (let i = 1; i < curve.length; i++) {
    const [a, b] = [curve[i - 1]!, curve[i]!];
    const crosses = a < 0 !== b < 0;
    const at = origin + every * (i - 1 + (crosses ? a / (a - b) : 0));
    if (at > to) break;
    if (crosses && at >= from && at - (zeros[zeros.length - 1]?.at ?? Number.NEGATIVE_INFINITY) > apart) {
      zeros.push({ at, height });
      height = 0;
    }
    if (at >= from - apart) height = Math.max(height, Math.abs(b));
  }
  return zeros;
}

function smoothed(values: Float64Array, cycle: number): Float64Array {
  const filled = values.map((value) => (Number.isNaN(value) ? 0 : value));
  return analyticSignal(filled, { low: 0.25 / cycle, high: Math.min(0.5, 3.5 / cycle) }).real;
}

function resultOf({ noise }: DriveSearch, { drive, by, answer, beside: part }: Fitted): DriveFitted {
  const { steps, basis, covariance } = drive;
  const variance = Math.max(noise, drive.squares / Math.max(1, drive.count - drive.parameters));
  const free = drive.moves.length;
  const spread = (weights: Float64Array) => {
    let sum = 0;
    for (let a = 0; a < free; a++)
      for (let b = 0; b < free; b++) sum += weights[a]! * weights[b]! * covariance[a * free + b]!;
    return Math.sqrt(variance * Math.max(0, sum));
  };
  const between = (a: number, b: number) => spread(basis[b]!.map((part, m) => part - basis[a]![m]!));
  const end = steps.length - 1;
  const span = steps[end - 1]! - steps[1]!;
  const frequency = (end - 2) / (2 * span);
  return {
    start: { at: steps[0]!, error: spread(basis[0]!) },
    end: { at: steps[end]!, error: spread(basis[end]!) },
    length: { value: steps[end]! - steps[0]!, error: between(0, end) },
    frequency: { value: frequency, error: (frequency * between(1, end - 1)) / span },
    usual: { by, answer, half: 0.5 / frequency, beside: part },
  };
}
