/** A solution with the figures of stand-off among its own, for what explains and moves them. */
import type { Coil } from "../description/coil.ts";
import type { Solution } from "../workbench/contract.ts";
import { type Solve, solve } from "../workbench/solve.ts";
import { standoff } from "../workbench/standoff.ts";
import type { Standoff, StandoffBursts } from "../workbench/standoff-contract.ts";
import { type JudgedBursts, judgedAgain, judgedBursts } from "./judged-bursts.ts";

/** Figures of the solution, of the burst at the setting, then of stand-off; with stand-off itself. */
export function withStandoff(
  coil: Coil,
  solution: Solution,
  bursts: StandoffBursts = judgedBursts(coil, solution),
): { readonly solution: Solution; readonly standoff: Standoff } {
  const found = standoff({ coil, solution, bursts });
  const figures = new Map([...solution.figures, ...bursts.study.figures, ...found.figures]);
  return { solution: { ...solution, figures }, standoff: found };
}

/**
 * `solve`, with the bursts that stand-off is judged by, and stand-off, for coils near one that was judged.
 * @returns a solver that throws OutOfDomain, RangeError as `solve`
 */
export const solveWithStandoff =
  (near: { readonly coil: Coil; readonly bursts: JudgedBursts }): Solve =>
  (coil, options) => {
    const solution = solve(coil, options);
    return withStandoff(coil, solution, judgedAgain(coil, solution, near)).solution;
  };
