/**
 * A bridge that follows the primary's current, seen by a channel that shows another thing, a pickup loop as a rule: where a gate tells when it
 * was driven and the decay gives the poles, the commutations follow from how the poles share the current and from the bridge's delay.
 */
import { type Driven, isExplained, withBeside } from "./drive-search.ts";
import { heightsOf } from "./drive-steps.ts";
import { type Feedback, feedbackSteps } from "./feedback-steps.ts";
import {
  amplitudesOf,
  fitSquareDrive,
  type KnownPole,
  type Span,
  type SquareDrive,
  type StepAnswer,
  type StepModel,
} from "./square-drive.ts";
import type { Pulse } from "./two-level.ts";

/**
 * What is tried first: where the secondary's own frequency lies between the poles, delays of the bridge in cycles, steps of the start to a
 * cycle; and where the second pole is not known, its place over the first.
 */
const grid = {
  both: { besides: [1], betweens: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9], delays: [-0.04, 0.02, 0.08] },
  one: {
    besides: [0.79, 0.82, 0.85, 0.88, 0.91, 0.94, 1.06, 1.09, 1.12, 1.15, 1.18, 1.21, 1.24],
    betweens: [0.25, 0.5, 0.75],
    delays: [0, 0.06],
  },
};
const startsPerCycle = 10;
/** Values to a cycle that tell one start from another. */
const coarsePerCycle = 6;
/** Starts of the fit that are followed: no more, none that leaves far more than the best, none where all leave far more than noise. */
const mostFollowed = 6;
const farMore = 2.5;
const hopelessOver = 30;
/** Rounds in which the commutations are simulated anew. */
const rounds = 8;
/** A round that gains less than this part of what is left is the last. */
const enough = 1e-4;
/** Secondary's share of the losses beforehand, and its standard deviation. */
const usualDamping = { value: 0.5, deviation: 0.25 };
/** What a threshold adds to the delay after the first half-cycle, and its standard deviation [cycles]. */
const usualGrowth = { value: 0.006, deviation: 0.01 };
/** Half-cycles that a drive may have. */
const mostSteps = 260;
/** Cycles of quiet before the start. */
const before = 5;

export interface FeedbackFound {
  /** Mean of the commutations, cycles per value, with its standard error from the noise. */
  readonly frequency: { readonly value: number; readonly error: number };
  /** Σ residual² over the window. */
  readonly squares: number;
  /** What one burst says of the next. */
  readonly usual: FeedbackUsual;
}

export interface FeedbackUsual extends Start {
  readonly answer: StepAnswer;
}

/** By how much the drive may begin before and after its window does [cycles]. */
export interface StartSlack {
  readonly early: number;
  readonly late: number;
}

/**
 * @param driven  from `startNear` to `endNear` as the window says
 * @param known   one pole or two, per value
 * @returns  undefined where no such bridge explains the burst
 */
export function feedbackDrive(
  driven: Driven,
  known: readonly KnownPole[],
  { answers, slack, usual }: { answers: readonly StepAnswer[]; slack: StartSlack; usual?: FeedbackUsual },
): FeedbackFound | undefined {
  const { startNear, cycle } = driven;
  const span = windowOf(driven);
  const within = { from: startNear - slack.early * cycle, to: startNear + slack.late * cycle };
  const explained = (answer: StepAnswer, begun: readonly Start[]): FeedbackFound | undefined => {
    const [best] = begun
      .flatMap((start) => {
        const drive = fitted(driven, span, { start, answer });
        return drive !== undefined && liesIn(drive.moves[0]!, within) && isExplained(driven, { drive, answer })
          ? [{ drive, start }]
          : [];
      })
      .sort((a, b) => a.drive.squares - b.drive.squares);
    return best === undefined
      ? undefined
      : {
          frequency: frequencyOf(driven, best.drive),
          squares: best.drive.squares,
          usual: { ...startOf(best.drive, best.start, cycle), answer },
        };
  };
  const again = usual === undefined ? undefined : explained(usual.answer, [asUsual(span, usual, { cycle, within })]);
  if (again !== undefined) return again;
  for (const answer of usual === undefined ? answers : [usual.answer]) {
    const found = explained(answer, likeliest(driven, span, { known, answer, within }));
    if (found !== undefined) return found;
  }
  return undefined;
}

/** As the burst before, at the best start. */
function asUsual(span: Span, usual: FeedbackUsual, { cycle, within }: { cycle: number; within: Pulse }): Start {
  const { answer, poles } = usual;
  let best: Start = { ...usual, squares: Number.POSITIVE_INFINITY };
  for (let start = within.from; start <= within.to; start += cycle / startsPerCycle) {
    const feedback = { ...usual.feedback, start };
    const squares = squaresOf(span, { feedback, poles, answer, cycle });
    if (squares !== undefined && squares < best.squares) best = { feedback, poles, squares };
  }
  return refined(span, best, { answer, cycle, within });
}

/** From the quiet before the drive to its end. */
export function windowOf({ values, startNear, endNear, cycle }: Driven): Span {
  return {
    values,
    from: Math.max(0, Math.floor(startNear - before * cycle)),
    to: Math.min(values.length, Math.floor(endNear - 1)),
  };
}

const liesIn = (place: number, { from, to }: Pulse) => place >= from && place <= to;

/** What was fitted as the start of another fit: what is known of the poles stays. */
function startOf({ moves, poles, squares }: SquareDrive, { poles: known }: Start, cycle: number): Start {
  return {
    feedback: feedbackOf(moves, cycle),
    poles: known.map((pole, k) => ({ ...pole, ...(isUnknown(pole) ? poles[k] : {}) })),
    squares,
  };
}

interface Start {
  readonly feedback: Feedback;
  readonly poles: readonly KnownPole[];
  readonly squares: number;
}

/** The best start for each share between the poles, the best of them first. */
function likeliest(
  { cycle, noise }: Driven,
  span: Span,
  { known, answer, within }: { known: readonly KnownPole[]; answer: StepAnswer; within: Pulse },
): readonly Start[] {
  const [first] = known;
  if (first === undefined) return [];
  const best = new Map<string, Start>();
  const { besides, betweens, delays } = grid[known.length > 1 ? "both" : "one"];
  for (const part of besides) {
    const poles = known.length > 1 ? known : withBeside(first, part, noise);
    const sorted = [...poles].sort((a, b) => a.angular - b.angular);
    for (const between of betweens)
      for (const delay of delays)
        for (let start = within.from; start <= within.to; start += cycle / startsPerCycle) {
          const feedback = {
            start,
            delay: delay * cycle,
            between,
            damping: usualDamping.value,
            growth: usualGrowth.value * cycle,
          };
          const squares = squaresOf(span, { feedback, poles: sorted, answer, cycle });
          const key = `${part} ${between}`;
          if (squares !== undefined && squares < (best.get(key)?.squares ?? Number.POSITIVE_INFINITY))
            best.set(key, { feedback, poles: sorted, squares });
        }
  }
  const hopeless = hopelessOver * noise * (span.to - span.from);
  return [...best.values()]
    .sort((a, b) => a.squares - b.squares)
    .slice(0, mostFollowed)
    .map((one) => refined(span, one, { answer, cycle, within }))
    .sort((a, b) => a.squares - b.squares)
    .filter(({ squares }, _, [first]) => squares < hopeless && squares < farMore * (first?.squares ?? 0));
}

/** First strides of the search about a start: start and delay [cycles], share, and the second pole's frequency where it is not known. */
const strides = { start: 0.05, delay: 0.025, between: 0.05, beside: 0.03 };
const halvings = 5;

/** Steps one way and the other along each unknown, halved where none helps. */
function refined(
  span: Span,
  start: Start,
  { answer, cycle, within }: { answer: StepAnswer; cycle: number; within: Pulse },
): Start {
  let best: Start = { ...start, squares: Number.POSITIVE_INFINITY };
  const tried = (feedback: Feedback, poles: readonly KnownPole[]) => {
    const squares = liesIn(feedback.start, within) ? squaresOf(span, { feedback, poles, answer, cycle }) : undefined;
    if (squares === undefined || squares >= best.squares) return false;
    best = { feedback, poles, squares };
    return true;
  };
  tried(start.feedback, start.poles);
  const ways = (size: number): readonly (() => boolean)[] => [
    () => tried({ ...best.feedback, start: best.feedback.start + size * strides.start * cycle }, best.poles),
    () => tried({ ...best.feedback, delay: best.feedback.delay + size * strides.delay * cycle }, best.poles),
    () => tried({ ...best.feedback, between: best.feedback.between + size * strides.between }, best.poles),
    ...(start.poles.some(isUnknown)
      ? [() => tried(best.feedback, withMoved(best.poles, 1 + size * strides.beside))]
      : []),
  ];
  for (let halving = 0, size = 1; halving < halvings; size /= 2, halving++)
    for (let again = 0; again < mostAgain; again++) {
      const helped = [...ways(size), ...ways(-size)].filter((way) => way()).length;
      if (helped === 0) break;
    }
  return best;
}

const mostAgain = 6;

const isUnknown = ({ angularWeight }: KnownPole) => angularWeight === 0;

/** The pole of which nothing was known beforehand moved. */
function withMoved(poles: readonly KnownPole[], factor: number): readonly KnownPole[] {
  return poles.map((pole) => (isUnknown(pole) ? { ...pole, angular: pole.angular * factor } : pole));
}

function squaresOf(
  span: Span,
  {
    feedback,
    poles,
    answer,
    cycle,
  }: { feedback: Feedback; poles: readonly KnownPole[]; answer: StepAnswer; cycle: number },
): number | undefined {
  const every = Math.max(1, Math.floor(cycle / coarsePerCycle));
  const steps = feedbackSteps(poles, feedback, { until: span.to, most: mostSteps });
  return steps.length < fewestSteps
    ? undefined
    : amplitudesOf(span, { poles, steps, heights: heightsOf(steps.length, 0), answer, every })?.squares;
}

const fewestSteps = 8;

function fitted(
  { noise, cycle }: Driven,
  span: Span,
  { start, answer }: { start: Start; answer: StepAnswer },
): SquareDrive | undefined {
  const middle = middleOf(cycle);
  let best: SquareDrive | undefined;
  let { feedback }: { feedback: Feedback } = start;
  let poles: SquareDrive["poles"] = start.poles;
  for (let round = 0; round < rounds; round++) {
    const about = vectorOf(feedback);
    const model = modelAbout(poles, about, { until: span.to, noise, cycle });
    if (model === undefined) break;
    const drive = fitSquareDrive(span, model, start.poles, {
      moves: Float64Array.of(...about.map((value, m) => value - middle[m]!), ...poles.flatMap(() => [0, 0])),
      answer,
      rounds: 3,
    });
    if (drive === undefined) break;
    const gain = best === undefined ? Number.POSITIVE_INFINITY : best.squares - drive.squares;
    if (gain > 0) best = drive;
    feedback = feedbackOf(drive.moves, cycle);
    poles = drive.poles;
    if (Math.abs(gain) < enough * drive.squares) break;
  }
  return best;
}

/** Moves are counted from here, where they are known beforehand. */
const middleOf = (cycle: number): readonly number[] => [0, 0, 0, usualDamping.value, usualGrowth.value * cycle];
/** By how much each is moved to see what it does. */
const nudges = [0.01, 0.01, 0.002, 0.01, 0.01];

const vectorOf = ({ start, delay, between, damping, growth }: Feedback): readonly number[] => [
  start,
  delay,
  between,
  damping,
  growth,
];

function feedbackOf(moves: Float64Array, cycle: number): Feedback {
  return bounded(middleOf(cycle).map((value, m) => value + moves[m]!));
}

function bounded([start, delay, between, damping, growth]: readonly number[]): Feedback {
  return {
    start: start!,
    delay: delay!,
    between: Math.max(0.02, Math.min(0.98, between!)),
    damping: Math.max(0, Math.min(1, damping!)),
    growth: growth!,
  };
}

/** By how much a pole's decay and frequency are moved to see what they do, per value. */
const poleNudge = 1e-5;

/** The commutations as straight lines in start, delay, the current's shares and the poles. */
function modelAbout(
  poles: SquareDrive["poles"],
  about: readonly number[],
  { until, noise, cycle }: { until: number; noise: number; cycle: number },
): StepModel | undefined {
  const middle = middleOf(cycle);
  const unmoved = Array.from({ length: 2 * poles.length }, () => 0);
  const all = [...about, ...unmoved];
  const stepsOf = (values: readonly number[], most: { until: number; most: number }) => {
    const [start, delay, between, damping, growth, ...changes] = values;
    return feedbackSteps(
      poles.map(({ decay, angular }, k) => ({
        decay: decay + changes[2 * k]!,
        angular: angular + changes[2 * k + 1]!,
      })),
      { start: start!, delay: delay!, between: between!, damping: damping!, growth: growth! },
      most,
    );
  };
  const at = stepsOf(all, { until, most: mostSteps });
  if (at.length < fewestSteps) return undefined;
  const slopes = all.map((_, m) => {
    const nudge = nudges[m] ?? poleNudge;
    const moved = (by: number) =>
      stepsOf(
        all.map((value, k) => (k === m ? value + by : value)),
        { until: Number.POSITIVE_INFINITY, most: at.length },
      );
    const [less, more] = [moved(-nudge), moved(nudge)];
    return less.length < at.length || more.length < at.length
      ? undefined
      : at.map((_, j) => (more[j]! - less[j]!) / (2 * nudge));
  });
  const usable = slopes.filter((slope) => slope !== undefined);
  if (usable.length < all.length) return undefined;
  const basis = at.map((_, j) => Float64Array.from(usable, (slope) => slope[j]!));
  return {
    base: Float64Array.from(at, (place, j) =>
      about.reduce((rest, value, m) => rest - basis[j]![m]! * (value - middle[m]!), place),
    ),
    basis,
    heights: heightsOf(at.length, 0),
    weights: Float64Array.of(
      0,
      0,
      0,
      noise / usualDamping.deviation ** 2,
      noise / (usualGrowth.deviation * cycle) ** 2,
      ...unmoved,
    ),
    tied: { from: about.length, poles },
  };
}

function frequencyOf(
  { noise }: Driven,
  { steps, basis, covariance, squares, count, parameters }: SquareDrive,
): FeedbackFound["frequency"] {
  const variance = Math.max(noise, squares / Math.max(1, count - parameters));
  const last = steps.length - 1;
  const size = basis[0]!.length;
  const weights = basis[last]!.map((part, m) => part - basis[1]![m]!);
  let sum = 0;
  for (let a = 0; a < size; a++)
    for (let b = 0; b < size; b++) sum += weights[a]! * weights[b]! * covariance[a * size + b]!;
  const span = steps[last]! - steps[1]!;
  const value = (last - 1) / (2 * span);
  return { value, error: (value * Math.sqrt(variance * Math.max(0, sum))) / span };
}
