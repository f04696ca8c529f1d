/** A solution with the figures of its burst among its own, for what moves and explains figures wherever they come from. */
import type { BurstSetting, BurstStudy } from "./burst-contract.ts";
import { study } from "./burst-stage.ts";
import type { Solution } from "./contract.ts";
import { type Solve, solve } from "./solve.ts";

/** The same solution; its figures first, then those of the burst. */
export const withBurst = (solution: Solution, { figures }: Pick<BurstStudy, "figures">): Solution => ({
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
    return withBurst(solution, study(coil, solution, setting));
  };
