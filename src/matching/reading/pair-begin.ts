/** When the drive of a pair began, whose current is hidden in the noise at first: drives from all starts are followed and compared. */
import { type DrivenBurst, startSlack } from "./driven-burst.ts";
import { type StepResponse, stepResponse } from "./pair-answer.ts";
import { currentOf, type DrivenSpan, fitPair, type PairFitted } from "./pair-fit.ts";
import type { PairStart } from "./pair-start.ts";
import { followingChanges, type ZeroSeen } from "./pair-steps.ts";

export interface Begun {
  readonly fitted: PairFitted;
  /** Zeros from the first one of the drive on. */
  readonly seen: readonly ZeroSeen[];
}

/** Cycles from one start to the next that is tried, and cycles over which the pair's own current stands for the record's. */
const stride = 0.1;
const own = 3;
/** Starts that are fitted, and cycles by which they differ at least. */
const tried = { most: 3, apart: 0.3 };
const iterations = 12;
/** Of a tank with its bridge, and of a secondary: a fit that begins with two Qs alike may rest with one of them without end. */
const usualQs = { tankQ: 40, secondaryQ: 120 };

/** The fits from one pair, with the starts that explain its beginning best. */
export function beginnings(
  burst: DrivenBurst,
  span: DrivenSpan,
  zeros: readonly ZeroSeen[],
  { pair, delay }: PairStart,
): readonly Begun[] {
  const { cycle, start } = burst;
  const response = stepResponse(pair);
  const count = Math.round((startSlack.earlier + startSlack.later) / stride) + 1;
  const all = Array.from({ length: count }, (_, n) => {
    const at = start + (n * stride - startSlack.earlier) * cycle;
    const first = followed(response, { start: at, delay: delay * cycle, until: at + own * cycle, cycle });
    const seen = joined(first, zeros, cycle);
    const within = seen.filter((zero) => zero.at < span.to);
    return { at, seen, ...scaleOf(span, response, { at, seen: within, delay: delay * cycle }) };
  }).sort((a, b) => a.squares - b.squares);
  const picked: typeof all = [];
  for (const one of all) {
    if (picked.every(({ at }) => Math.abs(at - one.at) > tried.apart * cycle)) picked.push(one);
    if (picked.length >= tried.most) break;
  }
  return picked.flatMap(({ at, seen: found, scale }): Begun[] => {
    const seen = found.map((zero) => weighed(zero, burst.peak / Math.abs(scale)));
    const changes = followingChanges(
      seen.filter((zero) => zero.at < span.to),
      cycle,
    );
    const moves = new Float64Array(changes.usual.length);
    moves[0] = delay * cycle;
    return [pair, { ...pair, ...usualQs }].flatMap((from) => {
      const fitted = fitPair(span, changes, { pair: from, scale, offset: 0, sag: 0, start: at, moves }, iterations);
      return fitted === undefined ? [] : [{ fitted, seen }];
    });
  });
}

/** A zero of the pair's own current: where, and the current that passes there. */
interface ZeroFollowed {
  readonly at: number;
  readonly passing: number;
  readonly shown?: true;
}

const weighed = (zero: ZeroSeen | ZeroFollowed, peak: number): ZeroSeen =>
  "passing" in zero ? { at: zero.at, weakness: peak / zero.passing, ...(zero.shown ? {} : { hidden: true }) } : zero;

/** Zeros of the current that a bridge drives which changes a delay after each of them. */
function followed(
  { poles, real, imaginary }: StepResponse,
  { start, delay, until, cycle }: { start: number; delay: number; until: number; cycle: number },
): readonly ZeroFollowed[] {
  const re = new Float64Array(poles.length);
  const im = new Float64Array(poles.length);
  const zeros: ZeroFollowed[] = [];
  const turns = poles.map(({ decay, angular }) => ({
    c: Math.exp(-decay) * Math.cos(angular),
    s: Math.exp(-decay) * Math.sin(angular),
  }));
  const step = (height: number, since: number) => {
    poles.forEach(({ decay, angular }, k) => {
      const size = height * Math.exp(-decay * since);
      re[k]! += size * Math.cos(angular * since);
      im[k]! += size * Math.sin(angular * since);
    });
  };
  let [level, last, change] = [1, 0, Number.POSITIVE_INFINITY];
  let at = Math.ceil(start);
  step(1, at - start);
  for (; at < until; at++) {
    const now = poles.reduce((sum, _, k) => sum + real[k]! * re[k]! - imaginary[k]! * im[k]!, 0);
    if (last * level > 0 && now * level < 0) {
      const zero = at - now / (now - last);
      zeros.push({ at: zero, passing: (Math.abs(now - last) * cycle) / (2 * Math.PI) });
      change = Math.max(at, zero + delay);
    }
    if (change <= at) {
      step(-2 * level, at - change);
      level = -level;
      change = Number.POSITIVE_INFINITY;
    }
    last = now;
    turns.forEach(({ c, s }, k) => {
      const [a, b] = [re[k]!, im[k]!];
      re[k] = a * c - b * s;
      im[k] = a * s + b * c;
    });
  }
  return zeros;
}

/** Cycles within which a zero of the record is the one that was followed. */
const same = 0.15;

/** The zeros that were followed, in the record's place where it has one there, and the record's own behind them. */
function joined(
  zeros: readonly ZeroFollowed[],
  shown: readonly ZeroSeen[],
  cycle: number,
): readonly (ZeroSeen | ZeroFollowed)[] {
  const last = zeros[zeros.length - 1];
  if (last === undefined) return [];
  return [
    ...zeros.map((zero): ZeroFollowed => {
      const near = shown.find(({ at }) => Math.abs(at - zero.at) < same * cycle);
      return near === undefined ? zero : { ...zero, at: near.at, shown: true };
    }),
    ...shown.filter(({ at }) => at > last.at + cycle / 4),
  ];
}

/** The scale that fits best, everything else given. */
function scaleOf(
  { values, from, to }: DrivenSpan,
  response: StepResponse,
  { at, seen, delay }: { at: number; seen: readonly Pick<ZeroSeen, "at">[]; delay: number },
): { scale: number; squares: number } {
  const steps = Float64Array.of(at, ...seen.map((zero) => zero.at + delay));
  const heights = steps.map((_, j) => (j === 0 ? 1 : j % 2 === 1 ? -2 : 2));
  const current = currentOf(response, { steps, heights, from, to });
  let [along, square, all] = [0, 0, 0];
  current.forEach((model, n) => {
    const value = values[from + n]!;
    if (value - value !== 0) return;
    along += model * value;
    square += model * model;
    all += value * value;
  });
  return { scale: along / square, squares: all - along ** 2 / square };
}
