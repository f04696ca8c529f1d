/** When the drive of one burst began and ended, from the signal alone. */
import { type DampedFit, type DampedPole, dampedAt, fitDamped } from "../../numerics/damped-fit.ts";
import { type Edge, type EdgeSearch, findEdge } from "./drive-edge.ts";
import type { Onset } from "./edge-answers.ts";

/** Cycles next to an edge over which the drive counts as a steady tone. */
const reachCycles = 3;
/** An answer with more amplitudes must explain this many variances more for each. */
const columnPrice = 6;
/** Where a second pole is tried that the decay does not show. */
const besideFactor = 1.07;

export interface EdgeSide {
  readonly values: Float64Array;
  /** Free decay after the drive, its first sample at `decayFrom`. */
  readonly decay: Pick<DampedFit, "terms" | "offset">;
  readonly decayFrom: number;
  readonly noise: number;
  /** Values to a cycle. */
  readonly cycle: number;
  /** Length of the drive as far as it is known, in values. */
  readonly length: number;
}

/** The start of the drive, looked for about `near`. */
export function driveStart(side: EdgeSide, near: number): Edge | undefined {
  const { values, cycle, decay } = side;
  const rest = values.map((value) => value - decay.offset);
  return bestOnset(side, {
    rest,
    kind: "on",
    earliest: near - 4 * cycle,
    latest: near + 2 * cycle,
    quiet: 3 * cycle,
  });
}

/** The end of the drive: what is before it is not the free decay. */
export function driveEnd(side: EdgeSide, near: number): Edge | undefined {
  const { values, cycle, decay, decayFrom } = side;
  const rest = values.map((value, n) => value - dampedAt(decay, n - decayFrom));
  return bestOnset(side, {
    rest,
    kind: "off",
    earliest: near - 2 * cycle,
    latest: near + 3 * cycle,
    quiet: 2 * cycle,
    ...expectedDrive(side, near),
  });
}

/** Cycles before the end over which the drive's frequency is read. */
const steadyCycles = 5;
/** By how much the drive's frequency may differ from that of a channel that it pulls. */
const pulled = 0.02;

/** The drive's frequency, from the signal's own shortly before the end. */
function expectedDrive({ values, cycle, decay }: EdgeSide, near: number): Pick<EdgeSearch, "expected"> {
  const last = values.subarray(Math.max(0, Math.round(near - steadyCycles * cycle)), Math.max(0, Math.round(near)));
  const angular = (2 * Math.PI) / cycle;
  const [tone] = fitDamped(last, [{ decay: 0, angular }])?.terms ?? [];
  const bounds = decay.terms.map((term) => term.angular);
  const within =
    tone !== undefined && tone.angular > 0.85 * Math.min(...bounds) && tone.angular < 1.15 * Math.max(...bounds);
  return within ? { expected: { driven: tone.angular, doubt: pulled * tone.angular } } : {};
}

function bestOnset(
  { decay, cycle, length, noise }: EdgeSide,
  search: Pick<EdgeSearch, "rest" | "kind" | "earliest" | "latest" | "quiet" | "expected">,
): Edge | undefined {
  const reach = Math.max(cycle, Math.min(reachCycles * cycle, 0.7 * length));
  const tried = candidates(decay.terms, search.kind).flatMap(({ onset, poles }) => {
    const angulars = poles.map(({ angular }) => angular);
    const expected = search.expected?.driven;
    const slowest = expected === undefined ? Math.min(...angulars) * 0.92 : expected * (1 - 2 * pulled);
    const fastest = expected === undefined ? Math.max(...angulars) * 1.08 : expected * (1 + 2 * pulled);
    return findEdge({ ...search, poles, slowest, fastest, reach, noise, onset }) ?? [];
  });
  const variance = Math.min(...tried.map((edge) => edge.variance));
  const cost = ({ squares, columns }: Edge) => squares + columnPrice * columns * variance;
  return tried.reduce<Edge | undefined>(
    (best, one) => (best === undefined || cost(one) < cost(best) ? one : best),
    undefined,
  );
}

/** While it is driven the coil has two poles even where the free decay shows one: the other is then also tried beside it. */
function candidates(
  terms: readonly DampedPole[],
  kind: EdgeSearch["kind"],
): readonly { onset: Onset; poles: readonly DampedPole[] }[] {
  const [only, second] = terms;
  if (only === undefined) return [];
  const pair = second === undefined ? [only, { decay: only.decay, angular: besideFactor * only.angular }] : terms;
  // Before its end the drive may have any phase: the driving point's answer is then as free as any.
  const onsets: readonly Onset[] = kind === "on" ? ["driven", 0, 1, 2, "any"] : [0, 1, 2, "any"];
  return [
    ...onsets.map((onset) => ({ onset, poles: pair })),
    ...(second === undefined ? [{ onset: kind === "on" ? ("driven" as const) : ("any" as const), poles: [only] }] : []),
  ];
}
