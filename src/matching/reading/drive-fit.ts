/** The drive of a burst from the whole of it: when the bridge commutated, evenly or with the current that it drives. */
import { analyticSignal } from "../../numerics/analytic-signal.ts";
import type { DampedPole } from "../../numerics/damped-fit.ts";
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
const mostCycles = 120;

/** Undefined where no square drive explains the burst. */
export function fitDrive(search: DriveSearch): DriveFitted | undefined {
  const { cycle, startNear, endNear, usual, answers } = search;
  const cycles = (endNear - startNear) / cycle;
  if (!(cycles > fewestCycles && cycles < mostCycles) || startNear < 2 * cycle || !(search.noise > 0)) return undefined;
  const known = knownPoles(search);
  const mayFollow = answers.includes("current");
  const begun = mayFollow && usual?.by !== "even" ? followingStart(search, known) : undefined;
  const rough = usual?.by === "current" ? [] : roughEven(search, known);
  const even = () => evenDrive(search, begun === undefined ? rough : rough.slice(0, 1));
  const following = () => (begun === undefined ? undefined : followingDrive(search, begun, known));
  // The way that explains more as it stands is fitted first.
  const evenFirst = begun === undefined || (rough[0]?.squares ?? Number.POSITIVE_INFINITY) < begun.squares;
  const first = evenFirst ? even() : following();
  // A pole that is free can make an even drive of one that is not: then both are compared.
  if (first !== undefined && known.length > 1 && leftOver(search, first.drive) < clearly)
    return resultOf(search, first);
  const second = evenFirst ? following() : even();
  const [best] = [first, second]
    .filter((one) => one !== undefined && isExplained(search, one))
    .sort((a, b) => (a?.drive.squares ?? 0) - (b?.drive.squares ?? 0));
  if (best !== undefined) return resultOf(search, best);
  const other = begun === undefined ? undefined : evenDrive(search, rough.slice(1));
  return other === undefined ? undefined : resultOf(search, other);
}

/** Residue beyond which no half-cycle more or fewer helps. */
const hopelessOver = 1500;

/** Residue up to which an even drive is taken without looking at another. */
const clearly = 1.15;

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
  readonly endDoubt: number;
  /** Standard deviation of the first commutation where it was taken from the curve. */
  readonly zeroDoubt: number;
}

/** Residue of a drive that is explained: over the noise's variance, and over the greatest value where a channel is a little bent. */
const explainedOver = 1.35;
const bent = 0.0025;
/** The same where the channel jumps at every commutation, which an instrument rounds. */
const rounded = 0.006;
/** What is this far from it without the end is not looked at further. */
const farOff = 12;

/** Mean square that is left, over the noise's variance. */
function leftOver({ noise }: DriveSearch, drive: SquareDrive): number {
  return drive.squares / (drive.count - drive.parameters) / noise;
}

function isExplained(search: DriveSearch, one: Fitted): boolean {
  return (
    leftOver(search, one.drive) <
    explainedOver + ((one.answer === "loop" ? rounded : bent) * search.peak) ** 2 / search.noise
  );
}

/** Level of the bridge before and after a drive: between the rails, or at the lower one. */
type Level = 0 | -1;
const levels: readonly Level[] = [0, -1];

function heightsOf(count: number, level: Level): Float64Array {
  const heights = new Float64Array(count);
  for (let j = 0; j < count; j++) heights[j] = j === 0 ? 1 - level : j % 2 === 1 ? -2 : 2;
  return heights;
}

function evenSteps(at: number, half: number, until: number): Float64Array {
  const steps = new Float64Array(Math.max(1, Math.ceil((until - at) / half)));
  for (let j = 0; j < steps.length; j++) steps[j] = at + j * half;
  return steps;
}

function withLast(values: Float64Array, last: number): Float64Array {
  const all = new Float64Array(values.length + 1);
  all.set(values);
  all[values.length] = last;
  return all;
}

interface EvenStart {
  readonly poles: readonly KnownPole[];
  readonly at: number;
  readonly half: number;
  readonly beside: number | undefined;
}

/** The first of the likeliest frequencies that explains the burst. */
function evenDrive(search: DriveSearch, likeliest: readonly EvenStart[]): Fitted | undefined {
  const driven = drivenSpan(search);
  for (const rough of likeliest) {
    const found = evenFromRough(search, driven, rough);
    if (found !== undefined && isExplained(search, found)) return found;
  }
  return undefined;
}

function evenFromRough(search: DriveSearch, driven: Span, rough: EvenStart): Fitted | undefined {
  const { cycle, usual } = search;
  let best: { drive: SquareDrive; level: Level; answer: StepAnswer } | undefined;
  for (const answer of usual === undefined ? search.answers : [usual.answer])
    for (const { at, half } of startsOf(search, driven, { rough, answer }))
      for (const level of levels) {
        const near = evenFrom(driven, { at, half, poles: rough.poles, level, answer });
        // A half-cycle more or fewer at the start, and the level before it, look much alike until everything fits.
        const hopeless = near === undefined || leftOver(search, near) > hopelessOver;
        for (const more of hopeless ? [0] : [0, -1, 1]) {
          if (best !== undefined && best.answer === answer && leftOver(search, best.drive) < clearly) break;
          const drive =
            more === 0 || near === undefined
              ? near
              : shifted(driven, near, { more, level, poles: rough.poles, answer });
          if (drive !== undefined && drive.squares < (best?.drive.squares ?? Number.POSITIVE_INFINITY))
            best = { drive, level, answer };
        }
      }
  if (best === undefined || best.drive.squares > farOff * search.noise * best.drive.count) return undefined;
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
  return whole === undefined
    ? undefined
    : { drive: whole, by: "even", answer, beside: rough.beside, endDoubt: end.doubt, zeroDoubt: 0 };
}

/** Up to where nothing but the drive is fitted: the end is somewhere behind. */
function surelyDriven({ cycle, startNear, endNear }: DriveSearch): number {
  return Math.floor(endNear - Math.min(endSlack * cycle, (endNear - startNear) / 4));
}

/** The quiet before the burst and what is surely driven. */
function drivenSpan(search: DriveSearch): Span {
  const { values, startNear, cycle } = search;
  return { values, from: Math.max(0, Math.floor(startNear - before * cycle)), to: surelyDriven(search) };
}

function wholeOf({ values, cycle, startNear, endNear }: DriveSearch): Span {
  return {
    values,
    from: Math.max(0, Math.floor(startNear - before * cycle)),
    to: Math.min(values.length, Math.ceil(endNear + after * cycle)),
  };
}

/** The start for the frequency as it stands; then, since each depends on the other, both one after the other. */
function* startsOf(
  search: DriveSearch,
  driven: Span,
  { rough, answer }: { rough: EvenStart; answer: StepAnswer },
): Generator<{ at: number; half: number }> {
  let refined = rough;
  for (let round = 0; round < 2; round++) {
    const start = startOf(driven, search, { rough: refined, answer });
    if (start === undefined) return;
    if (round === 0) yield { at: start.at, half: rough.half };
    refined = { ...refined, at: start.at, half: nearestHalf(driven, { ...start, rough: refined, answer }) };
  }
  yield refined;
}

interface RoughEven extends EvenStart {
  readonly squares: number;
}

/** Frequencies that are tried in full. */
const mostTried = 5;

/** Frequencies of an even drive, the likeliest first. Where it starts hardly matters here: a quarter of a cycle reaches every phase. */
function roughEven(search: DriveSearch, known: readonly KnownPole[]): readonly RoughEven[] {
  const { cycle, startNear, noise, usual } = search;
  const [first] = known;
  if (first === undefined) return [];
  const driven = drivenSpan(search);
  const parts = known.length > 1 ? [undefined] : usual?.beside === undefined ? beside : [usual.beside];
  const middle = usual?.half ?? Math.PI / first.angular;
  const width = usual === undefined ? reach : 0.02;
  const stride = (0.3 * middle * middle) / Math.max(driven.to - startNear, 1);
  const all: RoughEven[] = [];
  for (const part of parts) {
    const poles = part === undefined ? known : withBeside(first, part, noise);
    for (let half = middle * (1 - width); half <= middle * (1 + width); half += stride)
      for (const at of [startNear, startNear + cycle / 4]) {
        const steps = evenSteps(at, half, driven.to);
        const found = amplitudesOf(driven, { poles, steps, heights: heightsOf(steps.length, 0), every: 2 });
        if (found !== undefined) all.push({ poles, at, half, beside: part, squares: found.squares });
      }
  }
  all.sort((a, b) => a.squares - b.squares);
  const tried: RoughEven[] = [];
  for (const one of all)
    if (tried.length < mostTried && tried.every(({ half }) => Math.abs(half - one.half) > 1.5 * stride))
      tried.push(one);
  return usual === undefined ? tried : tried.slice(0, 1);
}

/** A pole and another that is hardly known. */
function withBeside(first: KnownPole, part: number, noise: number): readonly KnownPole[] {
  const unknown = { decayWeight: (0.1 * noise) / first.decay ** 2, angularWeight: 0 };
  return [first, { ...unknown, decay: first.decay, angular: part * first.angular }];
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
  // Only which start is the best has to show.
  return fitSquareDrive(span, model, poles, { moves: Float64Array.of(at, half), answer, rounds: 8, enough: 0.3 });
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
  /** Standard deviation that other numbers of commutations, explaining it about as well, leave to the place. */
  readonly doubt: number;
}

/** The end: looked for on a grid with everything else as it stands. */
function endOf(
  { values, cycle, endNear, noise }: DriveSearch,
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
  // What the bridge is at before a drive it is at again after it.
  const at = (place: number): (End & { squares: number }) | undefined => {
    const steps = stepsUntil(place);
    const change = level - (steps.length % 2 === 1 ? 1 : -1);
    if (steps.length < 4 || change === 0) return undefined;
    const heights = withLast(heightsOf(steps.length, level), change);
    const found = amplitudesOf(span, { poles, steps: withLast(steps, place), heights, answer });
    return found === undefined ? undefined : { at: place, steps, heights, squares: found.squares, doubt: 0 };
  };
  const stride = cycle / 9;
  // The best for each number of commutations: a grid does not tell which of them is true.
  const coarse = new Map<number, End & { squares: number }>();
  for (let place = endNear - within; place <= endNear + Math.min(within, slack * cycle); place += stride) {
    const one = at(place);
    if (one !== undefined && one.squares < (coarse.get(one.steps.length)?.squares ?? Number.POSITIVE_INFINITY))
      coarse.set(one.steps.length, one);
  }
  const refined = [...coarse.values()]
    .sort((a, b) => a.squares - b.squares)
    .slice(0, 3)
    .map((one) => leastAbout(one, stride, at));
  const [first] = refined;
  if (first === undefined) return undefined;
  const best = refined.reduce((least, one) => (one.squares < least.squares ? one : least), first);
  let [weights, spread] = [0, 0];
  for (const one of refined) {
    const weight = Math.exp((best.squares - one.squares) / (2 * noise));
    weights += weight;
    spread += weight * (one.at - best.at) ** 2;
  }
  return { ...best, doubt: Math.sqrt(spread / weights) };
}

/** Halves the stride about the best so far. */
function leastAbout<T extends { at: number; squares: number }>(
  start: T,
  stride: number,
  at: (place: number) => T | undefined,
): T {
  let best = start;
  for (let width = stride / 2; width > stride / 20; width /= 2) {
    for (const side of [-1, 1]) {
      const one = at(best.at + side * width);
      if (one === undefined || one.squares >= best.squares) continue;
      best = one;
      break;
    }
  }
  return best;
}

/** Times that the zero crossings are taken anew from the model. */
const rounds = 4;
/** Values to a value at which its zeros are looked for. */
const fine = 0.2;

/** A bridge that changes a little after each zero of its own current: always the same delay, and more of it where the current is weak. */
function followingDrive(search: DriveSearch, start: FollowingStart, known: readonly KnownPole[]): Fitted | undefined {
  const { cycle, endNear } = search;
  const { zeros } = start;
  let best: Following | undefined;
  for (const more of [0, -1, 1]) {
    if (best?.drive !== undefined && leftOver(search, best.drive) < nearlyOver) break;
    const at = start.at + (more * cycle) / 2;
    const begun: Following = {
      zeros: zeros.filter((zero) => zero.at > at + cycle / 4),
      moves: Float64Array.of(at, 0, 0, endNear),
      poles: known,
      level: 0,
    };
    const once = nextFollowing(search, start.poles, begun, endSlack * cycle);
    if (once?.drive !== undefined && once.drive.squares < (best?.drive?.squares ?? Number.POSITIVE_INFINITY))
      best = once;
  }
  for (let round = 1; round < rounds && best !== undefined; round++) {
    const next = nextFollowing(search, start.poles, best, cycle);
    if (next === undefined) break;
    const still = isStill(best, next);
    best = next;
    if (still) break;
  }
  return best?.drive === undefined
    ? undefined
    : {
        drive: best.drive,
        by: "current",
        answer: "current",
        beside: undefined,
        endDoubt: best.endDoubt ?? 0,
        zeroDoubt: zeroDoubtOf(search, best.drive, best.zeros),
      };
}

/** Residue below which a start half a cycle off need not be tried: it would leave far more. */
const nearlyOver = 4;
/** Values by which start and end may move in a round that is the last. */
const stillWithin = 0.003;

function isStill(before: Following, next: Following): boolean {
  return [0, 3].every((m) => Math.abs(before.moves[m]! - next.moves[m]!) < stillWithin);
}

/** Start and poles with which the current's own zeros, taken as the commutations, explain the drive best. */
function followingStart(search: DriveSearch, known: readonly KnownPole[]): FollowingStart | undefined {
  const { values, startNear, endNear, cycle, noise } = search;
  const [first] = known;
  if (first === undefined) return undefined;
  const zeros = zerosOf(smoothed(values, cycle), {
    from: startNear - slack * cycle,
    to: endNear + cycle,
    every: 1,
    origin: 0,
    apart: cycle / 4,
  });
  const span = drivenSpan(search);
  const better = (best: FollowingStart | undefined, at: number, poles: readonly KnownPole[]) => {
    const steps = Float64Array.of(at, ...zeros.map((zero) => zero.at).filter((place) => place > at + cycle / 4));
    const heights = heightsOf(steps.length, 0);
    const squares = amplitudesOf(span, { poles, steps, heights, answer: "current", every: 2 })?.squares;
    return squares !== undefined && squares < (best?.squares ?? Number.POSITIVE_INFINITY)
      ? { at, poles, zeros, squares }
      : best;
  };
  let best: FollowingStart | undefined;
  for (const poles of known.length > 1 ? [known] : beside.map((part) => withBeside(first, part, noise)))
    for (let at = startNear - slack * cycle; at <= startNear + (slack / 2) * cycle; at += cycle / 6)
      best = better(best, at, poles);
  const coarse = best;
  if (coarse === undefined) return undefined;
  for (const part of [-1 / 12, -1 / 24, 1 / 24, 1 / 12]) best = better(best, coarse.at + part * cycle, coarse.poles);
  return best;
}

interface FollowingStart {
  readonly at: number;
  readonly poles: readonly KnownPole[];
  readonly zeros: readonly Zero[];
  readonly squares: number;
}

/** What the fitted curve's own error, that of its amplitudes, moves its first zero by, where the current is weak. */
function zeroDoubtOf({ noise, cycle }: DriveSearch, { poles, count }: SquareDrive, zeros: readonly Zero[]): number {
  const height = zeros[0]?.height ?? 0;
  return height > 0 ? (Math.sqrt((noise * poles.length) / count) * cycle) / (2 * Math.PI * height) : 0;
}

/** By how much of a cycle a bridge may lag longer at the weakest half-cycle: standard deviation. */
const growthDoubt = 0.01;

interface Following {
  readonly zeros: readonly Zero[];
  /** Start, delay, its growth as the current is smaller, end. */
  readonly moves: Float64Array;
  readonly poles: readonly DampedPole[];
  readonly level: Level;
  readonly drive?: SquareDrive;
  readonly endDoubt?: number;
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
    weights: Float64Array.of(0, 0, search.noise / (growthDoubt * cycle) ** 2, 0),
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
    endDoubt: end.doubt,
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

function resultOf(
  { noise }: DriveSearch,
  { drive, by, answer, beside: part, endDoubt, zeroDoubt }: Fitted,
): DriveFitted {
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
    end: { at: steps[end]!, error: Math.hypot(spread(basis[end]!), endDoubt) },
    length: { value: steps[end]! - steps[0]!, error: Math.hypot(between(0, end), endDoubt, zeroDoubt) },
    frequency: { value: frequency, error: (frequency * Math.hypot(between(1, end - 1), zeroDoubt)) / span },
    usual: { by, answer, half: 0.5 / frequency, beside: part },
  };
}
