/** What the first-order effects of the shape missed, put right by solving in full. */
import type { Coil } from "../description/coil.ts";
import type { Attempt } from "./match-attempt.ts";
import { coilWithCause } from "./match-causes.ts";
import { fitProblem } from "./match-fit.ts";
import type { Drawn, Parameter } from "./match-parameters.ts";
import { shapeFigures } from "./match-point.ts";
import type { Base } from "./match-predict.ts";
import type { Solve } from "./solve.ts";

/** Solves shape and room at the fitted numbers, takes what the slopes missed as an offset, and fits again from there; twice. */
export function solvedAgain(found: Attempt, { drawn, solve }: { drawn: Drawn; solve: Solve }): Attempt {
  let current = found;
  for (let round = 0; round < 2; round++) {
    const { problem, u } = current.fit;
    const { base, parameters } = problem;
    const start = current.cause?.kind === "switch" && current.cause.coil ? current.cause.coil : drawn.solution.coil;
    const shaped = parameters.filter(({ logSlopes, paths }) => logSlopes.size > 0 && paths.length > 0);
    const there = shaped.reduce((coil, parameter) => {
      const value = parameter.drawn + parameter.sigma * u[parameters.indexOf(parameter)]!;
      // The tap may stand elsewhere in the cause's coil: every number moves by its change.
      return parameter.paths.includes("secondary.turns") ? coil : coilWithCause(coil, parameter, value);
    }, start);
    const offset = offsetAt({ there, start, solve, parameters: shaped, all: parameters, u });
    if (offset === undefined) return current;
    const moved = [...offset].reduce((most, [id, by]) => Math.max(most, Math.abs(by - (base.offset.get(id) ?? 0))), 0);
    if (moved < 1e-5) return current;
    const fit = fitProblem({ ...problem, base: { ...base, offset } }, u);
    current = { ...current, fit };
  }
  return current;
}

function offsetAt({
  there,
  start,
  solve,
  parameters,
  all,
  u,
}: {
  there: Coil;
  start: Coil;
  solve: Solve;
  parameters: readonly Parameter[];
  all: readonly Parameter[];
  u: Float64Array;
}): Base["offset"] | undefined {
  try {
    const [from, to] = [solve(start, { brief: true }).figures, solve(there, { brief: true }).figures];
    return new Map(
      shapeFigures.flatMap((id) => {
        const [before, after] = [from.get(id)?.value, to.get(id)?.value];
        if (!before || !after) return [];
        const first = parameters
          .filter(({ paths }) => !paths.includes("secondary.turns"))
          .reduce((sum, each) => sum + (each.logSlopes.get(id) ?? 0) * each.sigma * u[all.indexOf(each)]!, 0);
        return [[id, Math.log(after / before) - first] as const];
      }),
    );
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
