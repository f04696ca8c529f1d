/** The way to a fit of a floating bridge's burst: from its first cycles on, a longer piece each time. */
import { medianOf } from "../../numerics/robust.ts";
import { floatingBurst } from "./floating-burst.ts";
import {
  circuitOf,
  type FloatingFit,
  type FloatingSearch,
  fitFloating,
  lengthAt,
  type Parameters,
  project,
  projectOn,
  startAt,
  usualParameters,
  type Window,
} from "./floating-fit.ts";
import { smoothed, zerosOf } from "./zeros.ts";

/** Cycles before the start that are fitted with it, and by which the start may be wrong beforehand. */
const before = 4;
const slack = { early: 4, late: 0.7 };
/** Values from one start that is tried to the next. */
const stride = 2;

/** What the first cycles are compared with. */
const detunings = [0.86, 0.89, 0.92, 0.95, 0.98, 1.01, 1.05];
const couplings = [0.08, 0.11, 0.145, 0.19];
const scales = { few: [0.97, 0.985, 1, 1.015, 1.03], many: Array.from({ length: 15 }, (_, n) => 0.93 + 0.01 * n) };
type Effort = keyof typeof scales;

/** Cycles of the pieces. */
const pieces = [9, 13, 19, 28, 42, 63, 95, 140];
/** Likely beginnings that are followed. */
const mostTried = { few: 12, many: 24 };
const mostFollowed = 4;

export interface FloatingFound {
  readonly search: FloatingSearch;
  readonly fit: FloatingFit;
  /** Other places of the end that explain the burst about as well, best first; the fit's own is the first. */
  readonly ends: readonly FloatingFit[];
  readonly window: Window;
}

interface Beginning {
  readonly search: FloatingSearch;
  readonly fit: FloatingFit;
}

/**
 * @param searches   the same burst as what the channel may show
 * @param startNear  where the burst begins to stand out
 * @param end        the last value that is fitted: in the free decay, or where the current has stopped
 */
export function searchFloating(
  searches: readonly FloatingSearch[],
  { startNear, end }: { startNear: number; end: number },
): FloatingFound | undefined {
  const [one] = searches;
  if (one === undefined) return undefined;
  const from = fromOf(one, startNear);
  const first: Window = { from, to: Math.min(end, Math.round(startNear + pieces[0]! * one.cycle)) };
  const few = begunWith(searches, { startNear, window: first, effort: "few" });
  // Where the secondary's line is known there is no more to try.
  const begun =
    few.length > 0 || one.line !== undefined
      ? few
      : begunWith(searches.slice(0, 1), { startNear, window: first, effort: "many" });
  let best: FloatingFound | undefined;
  for (const { search, fit } of begun.slice(0, mostFollowed)) {
    const found = followed(search, fit.parameters, { from, end });
    if (found === undefined || found.fit.cost >= (best?.fit.cost ?? Number.POSITIVE_INFINITY)) continue;
    best = found;
    if (best.fit.leftOver < clearly) break;
  }
  return best;
}

function begunWith(
  searches: readonly FloatingSearch[],
  where: { startNear: number; window: Window; effort: Effort },
): readonly Beginning[] {
  return searches
    .flatMap((search) => beginnings(search, where).map((fit): Beginning => ({ search, fit })))
    .filter(({ search, fit }) => isExplained(search, fit, where.window, nearly))
    .sort((a, b) => a.fit.cost - b.fit.cost);
}

/** The burst with the circuit, the view and the length that another burst of the same record had. */
export function searchAlike(
  search: FloatingSearch,
  usual: Parameters,
  { startNear, end }: { startNear: number; end: number },
): FloatingFound | undefined {
  const window = { from: fromOf(search, startNear), to: end };
  const quiet = Math.round(before * search.cycle);
  const burst = floatingBurst(circuitOf(search, withStart(usual, 0)), {
    view: search.view,
    from: -quiet,
    to: end - Math.round(startNear),
  });
  let [least, place]: [number, number | undefined] = [Number.POSITIVE_INFINITY, undefined];
  for (const start of startsAbout(search, startNear)) {
    const squares = projectOn(search.values, burst, start - quiet)?.squares ?? Number.POSITIVE_INFINITY;
    if (squares < least) [least, place] = [squares, start];
  }
  const fit = place === undefined ? undefined : fitFloating(search, withStart(usual, place), window);
  return fit === undefined ? undefined : foundFrom(search, fit, window);
}

function withStart(p: Parameters, start: number): Parameters {
  const moved = Float64Array.from(p);
  moved[startAt] = start;
  return moved;
}

/** Values about where a burst begins to stand out at which its start is tried. */
function startsAbout({ cycle }: FloatingSearch, startNear: number): readonly number[] {
  const first = Math.ceil(Math.max(before * cycle, startNear - slack.early * cycle));
  const last = Math.floor(startNear + slack.late * cycle);
  return Array.from({ length: Math.max(0, Math.floor((last - first) / stride) + 1) }, (_, n) => first + stride * n);
}

/** Residue, over the noise, with which no other beginning is looked at. */
const clearly = 1.4;

/** The first cycles fitted from the likeliest circuits, half-cycles earlier and later too; the best first. */
function beginnings(
  search: FloatingSearch,
  { startNear, window, effort }: { startNear: number; window: Window; effort: Effort },
): readonly FloatingFit[] {
  const fitted = (p: Parameters) => fitFloating(search, p, window, { mostIterations: 8, short: true });
  const fits = likeliest(search, startNear, effort).flatMap((p) => fitted(p) ?? []);
  fits.sort((a, b) => a.cost - b.cost);
  const climbed = distinct(search, fits)
    .slice(0, mostFollowed)
    .map((fit) => climb(search, fit, fitted));
  climbed.sort((a, b) => a.cost - b.cost);
  return distinct(search, climbed);
}

/** Of fits that begin at the same place only the best; they come in order. */
function distinct({ cycle }: FloatingSearch, fits: readonly FloatingFit[]): readonly FloatingFit[] {
  return fits.filter(({ parameters }, n) =>
    fits.slice(0, n).every((better) => Math.abs(better.parameters[startAt]! - parameters[startAt]!) > cycle / 20),
  );
}

/** Half-cycles earlier or later as long as that explains more: the first ones are small and may not show. */
function climb(
  { cycle }: FloatingSearch,
  start: FloatingFit,
  fitted: (p: Parameters) => FloatingFit | undefined,
): FloatingFit {
  let best = start;
  for (const side of [1, -1])
    for (let n = 0; n < mostClimbed; n++) {
      const moved = Float64Array.from(best.parameters);
      moved[startAt]! += (side * cycle * Math.exp(-moved[0]!)) / 2;
      const next = fitted(moved);
      if (next === undefined || next.cost >= best.cost) break;
      best = next;
    }
  return best;
}

const mostClimbed = 5;

const fromOf = ({ cycle }: FloatingSearch, startNear: number) =>
  Math.max(0, Math.floor(startNear - (slack.early + before) * cycle));

/** Circuits whose first cycles look most like those of the burst, the likeliest first. */
function likeliest(search: FloatingSearch, startNear: number, effort: Effort): readonly Parameters[] {
  const { cycle, values, view, line } = search;
  const length = Math.round(pieces[0]! * cycle);
  const quiet = Math.round(before * cycle);
  const starts = startsAbout(search, startNear);
  const half = firstHalf(search, startNear);
  const found: { p: Parameters; squares: number }[] = [];
  for (const detuning of detunings)
    for (const coupling of couplings)
      for (const scale of line === undefined ? scalesOf(search, { detuning, coupling, half, effort }) : [1]) {
        const p = usualParameters(search, { scale, detuning, coupling, start: 0 });
        const burst = floatingBurst(circuitOf(search, p), { view, from: -quiet, to: length });
        let [least, place]: [number, number | undefined] = [Number.POSITIVE_INFINITY, undefined];
        for (const start of starts) {
          const squares = projectOn(values, burst, start - quiet)?.squares ?? Number.POSITIVE_INFINITY;
          if (squares < least) [least, place] = [squares, start];
        }
        if (place !== undefined) found.push({ p: withStart(p, place), squares: least });
      }
  return found
    .sort((a, b) => a.squares - b.squares)
    .slice(0, mostTried[effort])
    .map(({ p }) => p);
}

/** The secondary's frequency over the rough one with which a circuit changes as often as the signal does in its first cycles, or nearly. */
function scalesOf(
  search: FloatingSearch,
  { detuning, coupling, half, effort }: { detuning: number; coupling: number; half: number; effort: Effort },
): readonly number[] {
  const p = usualParameters(search, { detuning, coupling, start: 0 });
  const length = Math.round(pieces[0]! * search.cycle);
  const { changes } = floatingBurst(circuitOf(search, p), { view: search.view, from: 0, to: length });
  return scales[effort].map((scale) => (scale * spacingOf(changes)) / half);
}

/** Length of a half-cycle of the signal's first cycles. */
function firstHalf({ values, cycle }: FloatingSearch, startNear: number): number {
  const from = Math.max(0, Math.floor(startNear - before * cycle));
  const to = Math.round(startNear + pieces[0]! * cycle);
  const first = values.subarray(from, to + Math.ceil(cycle));
  const zeros = zerosOf(smoothed(first, cycle), {
    from: startNear - from,
    to: to - from,
    every: 1,
    origin: 0,
    apart: cycle / 4,
  });
  return zeros.length < 6 ? cycle / 2 : spacingOf(zeros.map(({ at }) => at));
}

/** Median distance of neighbours. */
const spacingOf = (places: readonly number[]): number =>
  medianOf(places.slice(1).map((place, n) => place - places[n]!));

/** Residue in parts of the greatest value up to which a piece counts as explained: on the way, and at the end. */
const nearly = 0.03;
const explained = 0.01;

function isExplained({ noise, values }: FloatingSearch, fit: FloatingFit, window: Window, part: number): boolean {
  let peak = 0;
  for (let n = window.from; n < window.to; n++) if (Math.abs(values[n]!) > peak) peak = Math.abs(values[n]!);
  return fit.leftOver < 1.5 + (part * peak) ** 2 / noise;
}

/** A longer piece that is explained this much worse than the last has something in it that is no drive. */
const worse = 1.25;

function followed(
  search: FloatingSearch,
  start: Parameters,
  { from, end }: { from: number; end: number },
): FloatingFound | undefined {
  let p = start;
  let last = 1;
  for (const [n, cycles] of pieces.entries()) {
    const to = Math.min(end, Math.round(start[startAt]! + cycles * search.cycle));
    const window = { from, to };
    const driven = fitFloating(search, p, window, { short: n < 2 });
    const explains = driven !== undefined && isExplained(search, driven, window, nearly);
    if (!explains || driven.leftOver > worse * last) {
      const found = n === 0 ? undefined : ended(search, p, { from, to, end, than: driven?.cost });
      if (found !== undefined) return found;
    }
    if (!explains || to >= end) return undefined;
    p = driven.parameters;
    last = Math.max(last, driven.leftOver);
  }
  return undefined;
}

/** Quarter-cycles at which the end of the drive is looked for. */
const perCycle = 4;

/** The drive ends within the window, where that explains more than a drive throughout: where, then all of it. */
function ended(
  search: FloatingSearch,
  p: Parameters,
  { from, to, end, than }: Window & { end: number; than: number | undefined },
): FloatingFound | undefined {
  const { cycle } = search;
  const window = { from, to };
  let [least, rough]: [number, Parameters | undefined] = [Number.POSITIVE_INFINITY, undefined];
  for (let length = 3 * cycle; length < to - p[startAt]!; length += cycle / perCycle) {
    const tried = Float64Array.of(...p.subarray(0, lengthAt), length);
    const squares = project(search, tried, window)?.squares ?? Number.POSITIVE_INFINITY;
    if (squares < least) [least, rough] = [squares, tried];
  }
  const first = rough && fitFloating(search, rough, window);
  if (first === undefined || first.cost >= (than ?? Number.POSITIVE_INFINITY)) return undefined;
  const whole = { from, to: end };
  const fit = fitFloating(search, first.parameters, whole, { mostIterations: 25 });
  return fit === undefined ? undefined : foundFrom(search, fit, whole);
}

/** Cycles about the end that are looked at once more, and the steps of it. */
const about = 0.75;
const aboutSteps = 12;
/** A place of the end that explains the burst less well by this many variances is not looked at. */
const farOff = 150;

/**
 * What the bridge does about the end may explain the burst nearly as well in two ways: turned off shortly before the current's zero, or
 * shortly behind the last change. Each is a least place of its own, and all are fitted.
 */
function foundFrom(search: FloatingSearch, fit: FloatingFit, window: Window): FloatingFound | undefined {
  const { cycle, noise } = search;
  const profile: { p: Parameters; squares: number }[] = [];
  for (let n = -aboutSteps; n <= aboutSteps; n++) {
    const p = Float64Array.from(fit.parameters);
    p[lengthAt]! += (n * about * cycle) / aboutSteps;
    profile.push({ p, squares: project(search, p, window)?.squares ?? Number.POSITIVE_INFINITY });
  }
  const least = Math.min(fit.projected.squares, ...profile.map(({ squares }) => squares));
  const ends = profile
    .filter(
      ({ squares }, n) =>
        squares <= (profile[n - 1]?.squares ?? Number.POSITIVE_INFINITY) &&
        squares <= (profile[n + 1]?.squares ?? Number.POSITIVE_INFINITY) &&
        squares < least + farOff * noise * Math.max(1, fit.leftOver),
    )
    .sort((a, b) => a.squares - b.squares)
    .slice(0, mostEnds)
    .flatMap(({ p }) => fitFloating(search, p, window, { mostIterations: 8 }) ?? []);
  const all = [fit, ...ends].sort((a, b) => a.cost - b.cost);
  const best = all[0]!;
  return isExplained(search, best, window, explained) ? { search, fit: best, ends: all, window } : undefined;
}

const mostEnds = 3;
