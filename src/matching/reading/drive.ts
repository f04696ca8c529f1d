/** When the drive of one burst began and ended, from the signal alone. */
import { type DampedFit, type DampedPole, dampedAt } from "../../numerics/damped-fit.ts";
import { type Edge, type EdgeSearch, findEdge } from "./drive-edge.ts";
import { type Onset, onsets } from "./edge-answers.ts";

/** Cycles next to an edge over which the drive counts as a steady tone. */
const reachCycles = 3;
/** A gentle onset has fewer amplitudes; it is taken unless the steep one explains this many variances more. */
const gentlePreference = 12;

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
  });
}

function bestOnset(
  { decay, cycle, length, noise }: EdgeSide,
  search: Pick<EdgeSearch, "rest" | "kind" | "earliest" | "latest" | "quiet">,
): Edge | undefined {
  const poles = twoPoles(decay.terms);
  const angulars = poles.map(({ angular }) => angular);
  const slowest = Math.min(...angulars) * 0.92;
  const fastest = Math.max(...angulars) * 1.08;
  const reach = Math.max(cycle, Math.min(reachCycles * cycle, 0.7 * length));
  const tried = onsets.map((onset: Onset) => findEdge({ ...search, poles, slowest, fastest, reach, noise, onset }));
  const steep = tried[0];
  const gentle = tried
    .slice(1)
    .reduce(
      (best, one) => (one !== undefined && (best === undefined || one.squares < best.squares) ? one : best),
      undefined,
    );
  if (steep === undefined || gentle === undefined) return steep ?? gentle;
  return gentle.squares - steep.squares < gentlePreference * steep.variance ? gentle : steep;
}

/** While it is driven the coil has two poles even where the free decay shows one: the other is then taken to stand beside it. */
function twoPoles(terms: readonly DampedPole[]): readonly DampedPole[] {
  const [only, second] = terms;
  return only !== undefined && second === undefined
    ? [only, { decay: only.decay, angular: 1.07 * only.angular }]
    : terms;
}
