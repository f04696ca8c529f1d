import { doubtsText, doubtText } from "../../views/text/doubt.ts";
import { findingsText } from "../../views/text/findings.ts";
import { type Doubts, intervals } from "../../workbench/doubts.ts";
import { type Solve, solve } from "../../workbench/solve.ts";
import { solutionWithBurst, solveWithBurst } from "../../workbench/solve-with-burst.ts";
import { everyNumber, judge, readInput } from "../coil-input.ts";
import { exit } from "../exit.ts";
import type { Io } from "../io.ts";
import { noSuchFigure } from "./why.ts";

/** `coilwright doubt FILE [ID]`: how sure each figure is, and which measurement would make it surer. */
export async function doubt(
  io: Io,
  name: string,
  id: string | undefined,
  { json = false }: { json?: boolean },
): Promise<number> {
  const input = await readInput(io, name);
  const { file, solution: solved, study, findings } = judge(input.text);
  const { width, colour } = io;
  if (solved === undefined) {
    io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
    return exit.unreadable;
  }
  const solution = study === undefined ? solved : solutionWithBurst(solved, study);
  if (id !== undefined && !solution.figures.has(id)) throw noSuchFigure(id, [...solution.figures.keys()]);
  const ofBurst = [...(study?.figures.keys() ?? [])];
  const doubtsOf = (figures: readonly string[], again: Solve) =>
    intervals({
      file,
      solution,
      solve: again,
      most: everyNumber,
      figures,
      onProgress: (done, of) => io.progress(`solving again, ${done} of ${of} numbers moved`),
    });
  // A figure that no burst enters need not have one studied at each step.
  const doubts: Doubts =
    id === undefined
      ? new Map([...doubtsOf([...solved.figures.keys()], solve), ...doubtsOf(ofBurst, solveWithBurst())])
      : doubtsOf([id], solved.figures.has(id) ? solve : solveWithBurst());
  io.progress("");
  const one = id === undefined ? undefined : doubts.get(id);
  if (json) io.out(`${JSON.stringify(one ?? [...doubts.values()], undefined, 2)}\n`);
  else io.out(one ? doubtText(one, { width, colour }) : doubtsText(doubts, { colour }));
  return exit.clean;
}
