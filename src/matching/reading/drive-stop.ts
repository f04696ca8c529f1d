/** The end of a drive: looked for on a grid, with everything else as it stands. */
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { type DriveSearch, slack } from "./drive-search.ts";
import { heightsOf, type Level, withLast } from "./drive-steps.ts";
import { amplitudesOf, type Span, type StepAnswer } from "./square-drive.ts";

interface End {
  readonly at: number;
  readonly steps: Float64Array;
  /** Of the steps and of the end. */
  readonly heights: Float64Array;
  /** Standard deviation that other numbers of commutations, explaining it about as well, leave to the place. */
  readonly doubt: number;
}

/** The end: looked for on a grid with everything else as it stands. */
export function endOf(
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
