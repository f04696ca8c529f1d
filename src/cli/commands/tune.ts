import { assess, type Room, roomOf } from "../../findings/index.ts";
import { briefText } from "../../views/text/brief.ts";
import { findingsText } from "../../views/text/findings.ts";
import { tuneJson } from "../../views/text/json.ts";
import { ledgerText } from "../../views/text/ledger.ts";
import { tuningText } from "../../views/text/tuning.ts";
import { intervals } from "../../workbench/doubts.ts";
import { solve } from "../../workbench/solve.ts";
import { burstsOf, judge, readInput } from "../coil-input.ts";
import { exitFor } from "../exit.ts";
import type { Io } from "../io.ts";
import { why } from "./why.ts";

/** Rooms whose findings stand on the page; the others are counted. */
const here: readonly Room[] = ["shape", "resonance"];

export interface TuneOptions {
  readonly json?: boolean;
  readonly sure?: boolean;
  readonly why?: string;
}

/** `coilwright tune FILE`: where the coil rings, whether it is tuned, and what moves the tune. */
export async function tune(io: Io, name: string, options: TuneOptions): Promise<number> {
  const { json = false, sure = false } = options;
  if (options.why !== undefined) return why(io, name, options.why, { json });
  const input = await readInput(io, name);
  const judged = judge(input.text);
  const { file, solution } = judged;
  const doubts =
    sure && solution
      ? intervals({
          file,
          solution,
          solve,
          onProgress: (done, of) => io.progress(`solving again, ${done} of ${of} numbers moved`),
        })
      : undefined;
  io.progress("");
  const sureOf = doubts ? { doubts } : {};
  const findings = doubts && solution ? assess({ file, solution, ...burstsOf(judged), doubts }) : judged.findings;
  const code = exitFor({ readable: file.coil !== undefined, findings });
  if (json) {
    io.out(`${JSON.stringify(tuneJson({ findings, ...(solution ? { solution } : {}), ...sureOf }), undefined, 2)}\n`);
    return code;
  }
  const { width, colour } = io;
  if (solution === undefined) {
    io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
    return code;
  }
  io.out(
    [
      tuningText({ solution, fileName: input.name, width, colour }),
      ledgerText({ figures: solution.figures, colour, ...sureOf }),
      briefText({
        findings: findings.filter(({ rule }) => here.includes(roomOf(rule))),
        elsewhere: findings.filter(({ rule }) => !here.includes(roomOf(rule))),
        fileName: input.name,
        width,
        colour,
      }),
    ].join("\n"),
  );
  return code;
}
