/** A bridge that follows its own current. */
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { type DriveSearch, endSlack, type Fitted, leftOver, wholeOf } from "./drive-search.ts";
import type { Level } from "./drive-steps.ts";
import { endOf } from "./drive-stop.ts";
import type { FollowingStart } from "./following-start.ts";
import { curveOf, fitSquareDrive, type KnownPole, type SquareDrive, type StepModel } from "./square-drive.ts";
import { type Zero, zerosOf } from "./zeros.ts";

/** Times that the zero crossings are taken anew from the model. */
const rounds = 4;

/** Values to a value at which its zeros are looked for. */
const fine = 0.2;

/** Residue below which a start half a cycle off need not be tried: it would leave far more. */
const nearlyOver = 4;

/** Values by which start and end may move in a round that is the last. */
const stillWithin = 0.003;

/** By how much of a cycle a bridge may lag longer at the weakest half-cycle: standard deviation. */
const growthDoubt = 0.01;

/** A bridge that changes a little after each zero of its own current: always the same delay, and more of it where the current is weak. */
export function followingDrive(
  search: DriveSearch,
  start: FollowingStart,
  known: readonly KnownPole[],
): Fitted | undefined {
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

function isStill(before: Following, next: Following): boolean {
  return [0, 3].every((m) => Math.abs(before.moves[m]! - next.moves[m]!) < stillWithin);
}

/** What the fitted curve's own error, that of its amplitudes, moves its first zero by, where the current is weak. */
function zeroDoubtOf({ noise, cycle }: DriveSearch, { poles, count }: SquareDrive, zeros: readonly Zero[]): number {
  const height = zeros[0]?.height ?? 0;
  return height > 0 ? (Math.sqrt((noise * poles.length) / count) * cycle) / (2 * Math.PI * height) : 0;
}

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
