/** When a drive was turned on or off, from how the resonators answer: quiet on one side, the answer to a tone on the other. */
import type { DampedPole } from "../../numerics/damped-fit.ts";
import { emptyNormal, observe, solveNormal } from "../../numerics/normal-equations.ts";
import { type Onset, squareAnswer, toneAnswer } from "./edge-answers.ts";

export interface Edge {
  /** In values of the stretch; not whole. */
  readonly at: number;
  /** Standard error from the noise alone, in values. */
  readonly error: number;
  /** Variance of what the answer does not explain. */
  readonly variance: number;
  readonly onset: Onset;
  /** Amplitudes that were free. */
  readonly columns: number;
  /** Σ residual² of the fit. */
  readonly squares: number;
  /** Frequency of the drive next to the edge, radians per value. */
  readonly driven: number;
}

export interface EdgeSearch {
  /** What is left when offset and free decay are taken away; NaN where a value does not count. */
  readonly rest: Float64Array;
  /** `on`: quiet before the edge. `off`: quiet after it. */
  readonly kind: "on" | "off";
  /** Where the edge is looked for, from `earliest` to `latest`. */
  readonly earliest: number;
  readonly latest: number;
  /** Values to look at on the driven side, at least a cycle. */
  readonly reach: number;
  /** Values to look at on the quiet side. */
  readonly quiet: number;
  readonly poles: readonly DampedPole[];
  /** Bounds of the drive's frequency, radians per value. */
  readonly slowest: number;
  readonly fastest: number;
  /** What the drive's frequency probably is, and its standard deviation; without it all of the bounds are alike. */
  readonly expected?: { readonly driven: number; readonly doubt: number };
  /** Variance of the noise per value. */
  readonly noise: number;
  readonly onset: Onset;
}

/** Steps to a cycle, and frequencies, at which the edge is first looked for. */
const perCycle = 6;
const frequencies = 6;

/**
 * Least squares over the edge's place and the drive's frequency; the answer's amplitudes are solved for at each.
 *
 * @returns  undefined where there is nothing to fit
 */
export function findEdge(search: EdgeSearch): Edge | undefined {
  const { earliest, latest, slowest, fastest } = search;
  const looked = lookedAt(search);
  const step = (4 * Math.PI) / (slowest + fastest) / perCycle;
  const stride = (fastest - slowest) / (frequencies - 1);
  let best: { at: number; driven: number; squares: number } | undefined;
  for (let driven = slowest; driven <= fastest + stride / 2; driven += stride) {
    for (let at = earliest; at <= latest; at += step) {
      const least = best?.squares ?? Number.POSITIVE_INFINITY;
      // What the quiet side leaves alone may be too much already.
      const squares = quietSquares(looked, at) < least ? squaresAt(looked, { at, driven }) : undefined;
      if (squares !== undefined && squares < least) best = { at, driven, squares };
    }
  }
  if (best === undefined) return undefined;
  let { at, driven } = best;
  for (let round = 0; round < 3; round++) {
    const width = 3 ** -round;
    at = leastNear(at, width * step, (value) => squaresAt(looked, { at: value, driven }));
    driven = leastNear(driven, width * stride, (value) => squaresAt(looked, { at, driven: value }));
  }
  return judged(looked, { at, driven, step });
}

/** Golden section within `width` of a start. */
function leastNear(start: number, width: number, squares: (value: number) => number | undefined): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  const value = (x: number) => squares(x) ?? Number.POSITIVE_INFINITY;
  let [low, high] = [start - width, start + width];
  let [a, b] = [high - ratio * (high - low), low + ratio * (high - low)];
  let [atA, atB] = [value(a), value(b)];
  for (let n = 0; n < 6; n++) {
    if (atA < atB) {
      [high, b, atB] = [b, a, atA];
      a = high - ratio * (high - low);
      atA = value(a);
    } else {
      [low, a, atA] = [a, b, atB];
      b = low + ratio * (high - low);
      atB = value(b);
    }
  }
  return (low + high) / 2;
}

/** The width at which the sum of squares has grown by the noise's variance is the standard error. */
function judged(looked: LookedAt, { at, driven, step }: { at: number; driven: number; step: number }): Edge {
  const { search } = looked;
  const value = (place: number) => squaresAt(looked, { at: place, driven }) ?? Number.POSITIVE_INFINITY;
  const squares = value(at);
  const counted = search.latest - search.earliest + search.reach + search.quiet;
  const variance = Math.max(search.noise, squares / counted);
  const risesBy = (side: -1 | 1) => {
    let width = step / 8;
    while (width < 20 * step && value(at + side * width) < squares + variance) width *= 1.25;
    return width;
  };
  return {
    at,
    error: (risesBy(-1) + risesBy(1)) / 2,
    variance,
    squares,
    driven,
    onset: search.onset,
    columns: columnsOf(search),
  };
}

function columnsOf({ kind, onset, poles, earliest, latest, slowest }: EdgeSearch): number {
  const place = { poles, driven: slowest, first: latest - earliest };
  return (kind === "on" ? squareAnswer(onset, place) : toneAnswer(onset, place)).size;
}

/** The values that are compared, the same for every place of the edge. */
interface LookedAt {
  readonly search: EdgeSearch;
  readonly from: number;
  readonly to: number;
  /** Σ rest² from `from` up to each value. */
  readonly upTo: Float64Array;
}

function lookedAt(search: EdgeSearch): LookedAt {
  const { rest, kind, earliest, latest, reach, quiet } = search;
  const from = Math.max(0, Math.floor(kind === "on" ? earliest - quiet : earliest - reach));
  const to = Math.min(rest.length, Math.ceil(kind === "on" ? latest + reach : latest + quiet));
  const upTo = new Float64Array(Math.max(0, to - from) + 1);
  for (let n = from; n < to; n++) {
    const value = rest[n]!;
    upTo[n - from + 1] = upTo[n - from]! + (value - value === 0 ? value * value : 0);
  }
  return { search, from, to, upTo };
}

/** The first value behind the edge. */
const insideOf = ({ from, to }: LookedAt, at: number): number => Math.max(from, Math.min(to, Math.ceil(at)));

/** Σ rest² over the quiet side of an edge. */
function quietSquares(looked: LookedAt, at: number): number {
  const { search, from, upTo } = looked;
  const before = upTo[insideOf(looked, at) - from]!;
  return search.kind === "on" ? before : upTo[upTo.length - 1]! - before;
}

/** Σ residual² over quiet and driven side, for the edge at `at`; undefined where the answers cannot be told apart. */
function squaresAt(looked: LookedAt, { at, driven }: { at: number; driven: number }): number | undefined {
  const { search, from, to } = looked;
  const { rest, kind, poles, onset, expected, noise } = search;
  const inside = insideOf(looked, at);
  const answer =
    kind === "on"
      ? squareAnswer(onset, { poles, driven, first: inside - at })
      : toneAnswer(onset, { poles, driven, first: at - (inside - 1) });
  const normal = emptyNormal(answer.size);
  const row = new Float64Array(answer.size);
  const [start, stop, step] = kind === "on" ? [inside, to, 1] : [inside - 1, from - 1, -1];
  for (let n = start; n !== stop; n += step) {
    answer.next(row);
    const value = rest[n]!;
    if (value - value === 0) observe(normal, row, value);
  }
  const solved = solveNormal(normal);
  if (solved === undefined) return undefined;
  let explained = 0;
  for (let a = 0; a < answer.size; a++) explained += solved.solution[a]! * normal.side[a]!;
  const unlikely = expected === undefined ? 0 : noise * ((driven - expected.driven) / expected.doubt) ** 2;
  return quietSquares(looked, at) + normal.squares - explained + unlikely;
}
