/** A solution with the figures of its burst among its own, for what moves and explains figures wherever they come from. */
import { type Figure, type Figures, figure } from "../catalogue/figure.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import type { BurstSetting, BurstStudy } from "./burst-contract.ts";
import { study } from "./burst-stage.ts";
import type { Solution } from "./contract.ts";
import { type Solve, solve } from "./solve.ts";

/** The same solution; its figures first, then those of the burst. */
const withBurst = (solution: Solution, figures: Figures): Solution => ({
  ...solution,
  figures: new Map([...solution.figures, ...figures]),
});

/**
 * `solve`, with the burst at a setting studied as well. A number that the setting moved stays where it was moved to.
 * @throws OutOfDomain, RangeError  as `solve` and `study`
 */
export const solveWithBurst =
  (setting: BurstSetting = {}): Solve =>
  (coil, options) => {
    const solution = solve(coil, options);
    return withBurst(solution, study(coil, solution, setting).figures);
  };

/** Figures that the load of the streamer moves; those of the streamer itself bring an interval of their own. */
const loaded =
  /^(burst\.(peak|rms|energy(Drawn|Returned|\.(switches|diodes|bus|primary|tank|secondary)))|winding\.|secondary\.heat|primary\.heat|bank\.|switch\.|bus\.(sag|ripple|capacitor)|mains\.(power$|current))/;

/**
 * A solution with the figures of its burst, for asking how sure they are.
 *
 * What a streamer draws is known to a factor of three either way, and any load that is not the best match draws less. So where the top breaks
 * out, each figure that the load moves gets an interval that reaches to what it would be with no load at all.
 *
 * @param setting  that the burst was studied at, as it was asked for
 * @source burst-simulation, channel-capacitance
 */
export function solutionWithBurst(solution: Solution, lit: BurstStudy, setting: BurstSetting = {}): Solution {
  if (!lit.setting.streamer || lit.breakoutTime === undefined) return withBurst(solution, lit.figures);
  const dark = study(solution.coil, solution, { ...setting, streamer: false });
  const widened = [...lit.figures.values()].map((one) => {
    const unloaded = loaded.test(one.id) ? dark.figures.get(one.id)?.value : undefined;
    return unloaded === undefined ? one : reachingTo(one, unloaded);
  });
  return withBurst(solution, new Map(widened.map((one) => [one.id, one])));
}

function reachingTo(
  { id, value, low = value, high = value, from, source, crossChecks, note }: Figure,
  to: number,
): Figure {
  const says = "the interval reaches to a burst without streamer, since its load is known to a factor of three";
  return figure(id, value, {
    from,
    // A figure's source was one of the catalogue's when it was made.
    source: source as SourceKey,
    crossChecks,
    note: note === undefined ? says : `${note}; ${says}`,
    low: Math.min(low, to),
    high: Math.max(high, to),
  });
}
