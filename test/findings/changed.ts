/** A quiet coil with a change made to it: its file, its solution and its burst with stand-in figures. */
import { type Figure, type Figures, figure } from "../../src/catalogue/figure.ts";
import { type JudgedBursts, judgedBursts } from "../../src/findings/index.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import type { BurstStudy } from "../../src/workbench/burst-contract.ts";
import type { CoilFile, Solution } from "../../src/workbench/contract.ts";
import type { Doubts } from "../../src/workbench/doubts.ts";
import { solve } from "../../src/workbench/solve.ts";
import type { Change } from "./cases.ts";
import { quietCoil } from "./quiet-coil.ts";
import { quietDriver } from "./quiet-driver.ts";

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

export interface Studied extends JudgedBursts {
  readonly file: CoilFile;
  readonly solution: Solution;
}

/** A text solved, and its bursts studied as the command line studies them. */
export function studied(text: string): Studied {
  const file = readCoil(text);
  const coil = coilOf(file);
  const solution = solve(coil, { brief: true });
  return { file, solution, ...judgedBursts(coil, solution) };
}

let drivenQuietly: Studied | undefined;
export function quietBurst(): Studied {
  drivenQuietly ??= studied(quietDriver);
  return drivenQuietly;
}

/** The quiet driver with a change: solved and studied anew where the change says so, else its figures but for those that stand in. */
export function changedDriver(change: Change): Studied {
  const text = editedText(quietDriver, change.edits);
  if (change.solved) return studied(text);
  const file = readCoil(text);
  const base = quietBurst();
  const { figures = {}, limits = {}, without = [] } = change;
  const { setting, ...parts } = change.study ?? {};
  const inSolution = Object.keys(figures).filter((id) => base.solution.figures.has(id));
  const ofStudy = Object.fromEntries(Object.entries(figures).filter(([id]) => !inSolution.includes(id)));
  const ofSolution = Object.fromEntries(Object.entries(figures).filter(([id]) => inSolution.includes(id)));
  // What is changed at the setting is no different in the other bursts, unless the change says so.
  const other = (burst: BurstStudy | undefined, own: Readonly<Record<string, number>>) =>
    burst && { ...burst, ...parts, figures: withValues(burst.figures, { ...ofStudy, ...own }, without) };
  const [atLimits, unlit] = [other(base.atLimits, limits), other(base.unlit, change.unlit ?? {})];
  return {
    file,
    solution: { ...base.solution, coil: coilOf(file), figures: withValues(base.solution.figures, ofSolution) },
    study: {
      ...base.study,
      ...parts,
      setting: { ...base.study.setting, ...setting },
      figures: withValues(base.study.figures, ofStudy, without),
    },
    ...(atLimits ? { atLimits } : {}),
    ...(unlit ? { unlit } : {}),
    ...(base.beyond ? { beyond: base.beyond } : {}),
  };
}

/** A figure that was not there is made with the unit of the catalogue. */
function withValues(
  figures: Figures,
  values: Readonly<Record<string, number>>,
  without: readonly string[] = [],
): Figures {
  const replaced = new Map<string, Figure>(figures);
  for (const [id, value] of Object.entries(values)) {
    const parts = figures.get(id) ?? { from: [], source: "burst-simulation" };
    replaced.set(id, figure(id, value, { from: parts.from, source: "burst-simulation" }));
  }
  for (const id of without) replaced.delete(id);
  return replaced;
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
