/** The quiet coil with a change made to it: its file, and its solution with stand-in figures. */
import type { Figure } from "../../src/catalogue/figure.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import type { CoilFile, Solution } from "../../src/workbench/contract.ts";
import type { Doubts } from "../../src/workbench/doubts.ts";
import { solve } from "../../src/workbench/solve.ts";
import type { Change } from "./cases.ts";
import { quietCoil } from "./quiet-coil.ts";

const coilOf = (file: CoilFile) => {
  if (file.coil === undefined) throw new Error(`no coil: ${file.findings.map(({ what }) => what).join("; ")}`);
  return file.coil;
};

let solved: Solution | undefined;
export function quietSolution(): Solution {
  solved ??= solve(coilOf(readCoil(quietCoil)));
  return solved;
}

export function editedText(text: string, edits: Change["edits"] = {}): string {
  const edited = editCoil(
    text,
    Object.entries(edits).map(([path, value]) => ({ path, value })),
  );
  if ("findings" in edited) throw new Error(edited.findings.map(({ what }) => what).join("; "));
  return edited.text;
}

/** The figures are the quiet coil's but for those that stand in: what is tested is the rule and not the solver. */
export function solutionOf(file: CoilFile, { figures = {}, detunings }: Change): Solution {
  const base = quietSolution();
  const replaced = new Map<string, Figure>(base.figures);
  for (const [id, value] of Object.entries(figures)) {
    const found = base.figures.get(id);
    if (found === undefined) throw new Error(`the quiet coil has no figure ${id}`);
    const { low: _low, high: _high, ...figure } = found;
    replaced.set(id, { ...figure, value });
  }
  return { ...base, coil: coilOf(file), figures: replaced, ...(detunings ? { detunings } : {}) };
}

export function changed(change: Change): { file: CoilFile; solution: Solution; doubts?: Doubts } {
  const file = readCoil(editedText(quietCoil, change.edits));
  const { guess } = change;
  return {
    file,
    solution: solutionOf(file, change),
    ...(guess ? { doubts: doubtsOf(guess) } : {}),
  };
}

const doubtsOf = ({ path, share }: { path: string; share: number }): Doubts =>
  new Map([
    [
      "tuning.ratio",
      {
        id: "tuning.ratio",
        value: 0.9,
        unit: "1",
        low: 0.88,
        high: 0.92,
        model: 0.01,
        contributions: [{ path, halfWidth: 0.02 * Math.sqrt(share), share }],
      },
    ],
  ]);
