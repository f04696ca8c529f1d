import { doubtsText, doubtText } from "../../views/text/doubt.ts";
import { findingsText } from "../../views/text/findings.ts";
import { intervals } from "../../workbench/doubts.ts";
import { solve } from "../../workbench/solve.ts";
import { judge, readInput } from "../coil-input.ts";
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
  const { file, solution, findings } = judge(input.text);
  const { width, colour } = io;
  if (solution === undefined) {
    io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
    return exit.unreadable;
  }
  if (id !== undefined && !solution.figures.has(id)) throw noSuchFigure(id, [...solution.figures.keys()]);
  const doubts = intervals({
    file,
    solution,
    solve,
    ...(id === undefined ? {} : { figures: [id] }),
    onProgress: (done, of) => io.progress(`solving again, ${done} of ${of} numbers moved`),
  });
  io.progress("");
  const one = id === undefined ? undefined : doubts.get(id);
  if (json) io.out(`${JSON.stringify(one ?? [...doubts.values()], undefined, 2)}\n`);
  else io.out(one ? doubtText(one, { width, colour }) : doubtsText(doubts, { colour }));
  return exit.clean;
}
