import { benchRules } from "../../findings/bench-rules.ts";
import { programmeRules, rules, solveWithStandoff, withStandoff } from "../../findings/index.ts";
import { closestOf } from "../../units/index.ts";
import { findingsText } from "../../views/text/findings.ts";
import { explainRule, ruleText } from "../../views/text/rule.ts";
import { whyText } from "../../views/text/why.ts";
import { explain } from "../../workbench/explain.ts";
import { solutionWithBench } from "../../workbench/match-why.ts";
import { solve } from "../../workbench/solve.ts";
import { solutionWithBurst, solveWithBurst } from "../../workbench/solve-with-burst.ts";
import { readBench } from "../bench-input.ts";
import { burstsOf, everyNumber, judge, readInput } from "../coil-input.ts";
import { exit } from "../exit.ts";
import { type Io, UserError } from "../io.ts";
import type { MatchCommandOptions } from "../match-options.ts";

/** What is said of records is said as for `match`. */
export interface WhyOptions extends MatchCommandOptions {
  readonly quick?: boolean;
  readonly capture?: readonly string[];
}

/** `coilwright why FILE ID`: what a figure is, how it is computed, from what, by which source, and what moves it; or what a rule looks for. */
export async function why(io: Io, name: string, id: string, options: WhyOptions): Promise<number> {
  const { json = false, quick = false, capture: captureNames = [] } = options;
  const input = await readInput(io, name);
  const judged = judge(input.text);
  const { file, solution: solved, study, findings } = judged;
  const { width, colour } = io;
  const bench =
    solved && captureNames.length > 0
      ? await readBench(io, file, { captureNames, options, fit: id.startsWith("match") })
      : undefined;
  const rule = [...rules, ...programmeRules, ...benchRules].find((one) => one.id === id);
  if (rule !== undefined) {
    const found = [...findings, ...(bench?.findings ?? [])].filter((finding) => finding.rule === id);
    io.out(
      json
        ? `${JSON.stringify({ rule: explainRule(rule), findings: found }, undefined, 2)}\n`
        : ruleText(rule, found, { width, colour }),
    );
    return exit.clean;
  }
  if (solved === undefined) {
    io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
    return exit.unreadable;
  }
  const isStandoff = id.startsWith("standoff.");
  const near =
    isStandoff && file.coil !== undefined && study !== undefined
      ? { coil: file.coil, bursts: { ...burstsOf(judged), study } }
      : undefined;
  const driven =
    study === undefined
      ? solved
      : near
        ? withStandoff(near.coil, solved, near.bursts).solution
        : solutionWithBurst(solved, study);
  const solution = bench ? solutionWithBench(driven, bench) : driven;
  const isOfRecord = /^(match|capture)\./.test(id);
  if (!bench && isOfRecord) {
    throw new UserError(`${id} comes from a record; name it, as in coilwright why ${name} ${id} --capture low.csv`);
  }
  if (!solution.figures.has(id)) throw noSuchFigure(id, [...solution.figures.keys()]);
  // A figure that no burst enters need not have one studied at each step.
  const again = near ? solveWithStandoff(near) : solved.figures.has(id) ? solve : solveWithBurst();
  const explanation = explain({
    file,
    solution,
    id,
    ...(quick || isOfRecord
      ? {}
      : {
          solve: again,
          most: everyNumber,
          onProgress: (done, of) => io.progress(`solving again, ${done} of ${of} numbers moved`),
        }),
  });
  io.progress("");
  if (explanation === undefined) throw noSuchFigure(id, [...solution.figures.keys()]);
  io.out(json ? `${JSON.stringify(explanation, undefined, 2)}\n` : whyText(explanation, { width, colour }));
  return exit.clean;
}

/** Names the nearest id; lists all of them where none is near. */
export function noSuchFigure(id: string, known: readonly string[]): UserError {
  const near = closestOf(id, known) ?? known.find((one) => one.endsWith(`.${id}`) || one.startsWith(`${id}.`));
  const hint = near === undefined ? `it has\n${known.map((one) => `  ${one}`).join("\n")}` : `did you mean ${near}?`;
  return new UserError(`this coil has no figure ${id}; ${hint}`);
}
