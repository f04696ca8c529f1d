import type { Edit, Finding } from "../../catalogue/finding.ts";
import { editCoil, readCoil } from "../../readers/coil-file.ts";
import { findingsText, remedyNumbers } from "../../views/text/findings.ts";
import { checkJson } from "../../views/text/json.ts";
import { type CoilText, type Judged, judge, readInput } from "../coil-input.ts";
import { exitFor } from "../exit.ts";
import { type Io, UserError } from "../io.ts";

export interface CheckOptions {
  readonly json?: boolean;
  /** `RULE.N`, each one remedy of a finding. */
  readonly apply?: readonly string[];
}

/** `coilwright check FILE`: what is wrong or doubtful about a coil, worst first, and ready edits to apply. */
export async function check(io: Io, name: string, { json = false, apply = [] }: CheckOptions): Promise<number> {
  const input = await readInput(io, name);
  if (apply.length === 0) return report(io, { input, judged: judge(input.text), json });
  const text = edited(input.text, apply);
  if (input.version === undefined) {
    io.out(text);
    const { file, findings } = judge(text);
    return exitFor({ readable: file.coil !== undefined, findings });
  }
  await io.save(name, { text, version: input.version });
  io.err(`${name}: ${apply.join(", ")} applied\n`);
  return report(io, { input: { ...input, text }, judged: judge(text), json });
}

function report(io: Io, { input, judged, json }: { input: CoilText; judged: Judged; json: boolean }): number {
  const { file, findings } = judged;
  if (json) io.out(`${JSON.stringify(checkJson(judged), undefined, 2)}\n`);
  else io.out(findingsText({ findings, text: input.text, fileName: input.name, width: io.width, colour: io.colour }));
  return exitFor({ readable: file.coil !== undefined, findings });
}

/**
 * The text with the chosen remedies applied.
 * @throws UserError a choice names no remedy, one that only hands can carry out, or one that would leave no coil
 */
function edited(text: string, choices: readonly string[]): string {
  const before = judge(text);
  const edits = choices.flatMap((choice) => editsOf(choice, before.findings));
  const after = editCoil(text, edits);
  if ("findings" in after)
    throw new UserError(`${choices.join(", ")}: ${after.findings[0]?.what}; nothing was changed`);
  if (before.file.coil !== undefined && readCoil(after.text).coil === undefined) {
    throw new UserError(`${choices.join(", ")} would leave a file that is no coil; nothing was changed`);
  }
  return after.text;
}

function editsOf(choice: string, findings: readonly Finding[]): readonly Edit[] {
  const [, rule = choice, number = "1"] = /^(.*?)(?:\.(\d+))?$/.exec(choice) ?? [];
  const numbers = remedyNumbers(findings);
  const ofRule = findings.flatMap((finding, index) =>
    finding.rule === rule ? finding.remedies.map((remedy, n) => ({ number: (numbers[index] ?? 1) + n, remedy })) : [],
  );
  if (ofRule.length === 0) {
    const known = [...new Set(findings.map((finding) => finding.rule))].join(", ");
    throw new UserError(`no finding ${rule} in this file${known ? `; it has ${known}` : ", which has none"}`);
  }
  const chosen = ofRule.find((each) => each.number === Number(number));
  if (chosen === undefined) {
    throw new UserError(`${rule} has remedies 1 to ${ofRule.length}, not ${number}`);
  }
  if (chosen.remedy.edits.length === 0) {
    throw new UserError(`${choice} is done by hand: ${chosen.remedy.says}`);
  }
  return chosen.remedy.edits;
}
