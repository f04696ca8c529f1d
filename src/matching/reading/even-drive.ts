/** A bridge that changes evenly. */
import {
  clearly,
  type DriveSearch,
  drivenSpan,
  endSlack,
  type Fitted,
  isExplained,
  leftOver,
  wholeOf,
} from "./drive-search.ts";
import { evenSteps, heightsOf, type Level, levels } from "./drive-steps.ts";
import { endOf } from "./drive-stop.ts";
import { type EvenStart, startsOf } from "./even-start.ts";
import {
  fitSquareDrive,
  type KnownPole,
  type Span,
  type SquareDrive,
  type StepAnswer,
  type StepModel,
} from "./square-drive.ts";

/** Residue beyond which no half-cycle more or fewer helps. */
const hopelessOver = 1500;

/** What is this far from it without the end is not looked at further. */
const farOff = 12;

/** The first of the likeliest frequencies that explains the burst. */
export function evenDrive(search: DriveSearch, likeliest: readonly EvenStart[]): Fitted | undefined {
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

function shifted(
  span: Span,
  { moves }: SquareDrive,
  { more, level, poles, answer }: { more: number; level: Level; poles: readonly KnownPole[]; answer: StepAnswer },
): SquareDrive | undefined {
  const half = moves[1]!;
  return evenFrom(span, { at: moves[0]! + more * half, half, level, poles, answer });
}

/** An even drive without its end, near a start and a length of the half-cycles. */
export function evenFrom(
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
