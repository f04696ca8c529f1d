/** The demo coils and a quiet one with a show, solved and judged once. */
import { readdirSync, readFileSync } from "node:fs";
import type { Coil } from "../../src/description/coil.ts";
import { type JudgedBursts, judgedBursts } from "../../src/findings/index.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import type { Solution } from "../../src/workbench/contract.ts";
import { solve } from "../../src/workbench/solve.ts";
import { standoff } from "../../src/workbench/standoff.ts";
import type { Standoff, StandoffProgramme } from "../../src/workbench/standoff-contract.ts";
import { editedText } from "../findings/changed.ts";
import { quietDriver } from "../findings/quiet-driver.ts";

export interface Case {
  readonly coil: Coil;
  readonly solution: Solution;
  readonly bursts: JudgedBursts;
  readonly found: Standoff;
}

export function caseOf(text: string, programme?: StandoffProgramme): Case {
  const { coil, findings } = readCoil(text);
  if (coil === undefined) throw new Error(findings.map(({ what }) => what).join("; "));
  const solution = solve(coil, { brief: true });
  const bursts = judgedBursts(coil, solution);
  return { coil, solution, bursts, found: standoff({ coil, solution, bursts, ...(programme ? { programme } : {}) }) };
}

const folder = new URL("../../examples/", import.meta.url);
export const demoNames = readdirSync(folder)
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => name.replace(".yaml", ""));
const demos = new Map<string, Case>();
export function demo(name: string): Case {
  const found = demos.get(name) ?? caseOf(readFileSync(new URL(`${name}.yaml`, folder), "utf8"));
  demos.set(name, found);
  return found;
}

export const quietWith = (edits: Readonly<Record<string, string | undefined>>, programme?: StandoffProgramme): Case =>
  caseOf(editedText(quietDriver, edits), programme);
