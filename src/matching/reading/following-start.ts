/** Where the fit of a bridge that follows its own current begins. */
import { beside, type DriveSearch, drivenSpan, slack, withBeside } from "./drive-search.ts";
import { heightsOf } from "./drive-steps.ts";
import { amplitudesOf, type KnownPole } from "./square-drive.ts";
import { smoothed, type Zero, zerosOf } from "./zeros.ts";

export interface FollowingStart {
  readonly at: number;
  readonly poles: readonly KnownPole[];
  readonly zeros: readonly Zero[];
  readonly squares: number;
}

/** Start and poles with which the current's own zeros, taken as the commutations, explain the drive best. */
export function followingStart(search: DriveSearch, known: readonly KnownPole[]): FollowingStart | undefined {
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
