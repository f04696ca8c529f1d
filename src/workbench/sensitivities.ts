/** How every figure moves with every number of the coil file, by solving again with each a little higher and lower. */
import type { Figures } from "../catalogue/figure.ts";
import { burstQuantities } from "../catalogue/quantities-burst.ts";
import { driverQuantities } from "../catalogue/quantities-driver.ts";
import type { Coil } from "../description/coil.ts";
import type { Provenances } from "../description/provenance.ts";
import { numberAt, withNumber } from "./coil-path.ts";
import type { CoilFile, Solution } from "./contract.ts";
import type { Solve } from "./solve.ts";

/** Relative step of each number. Large against the solver's own error of about 1e-7, small against any curvature of the figures. */
const relativeStep = 1e-3;
/**
 * Relative step, at least, for the figures of a burst. They jump where a burst gets half a cycle more or less, and a small step across a jump
 * would make a slope of it that holds nowhere: the step is as wide as the number's tolerance, and the slope that of the chord.
 */
const widestStep = 5e-3;
const ofBurst: ReadonlySet<string> = new Set([...burstQuantities, ...driverQuantities].map(({ id }) => id));

/** Whether a figure's slopes are those of the chord over each number's tolerance. */
export const movesByChord = (id: string): boolean => ofBurst.has(id);

/** Whole numbers below this are choices of how the coil is made, not sizes with a tolerance. */
const fewestToStep = 50;
/** Per cent per per cent below which a number is taken to have no effect. */
const leastElasticity = 1e-5;

export interface Sensitivity {
  readonly path: string;
  /** SI. */
  readonly value: number;
  /** Derivative of each figure that it moves, by id, in SI units of both. */
  readonly slopes: ReadonlyMap<string, number>;
}

export interface SensitivityOptions {
  readonly file: CoilFile;
  readonly solution: Solution;
  readonly solve: Solve;
  /** Only what these figures stand on is moved; every number where absent. */
  readonly figures?: readonly string[];
  /** At most so many numbers; 60 where absent. */
  readonly most?: number;
  readonly onProgress?: (done: number, of: number) => void;
}

/**
 * Local sensitivities by central differences of 0.1 %, or of one where the number counts turns; for figures of a burst, by the chord over each
 * number's tolerance, and over 0.5 % at least.
 *
 * A number that cannot be moved both ways, because the coil would become impossible, is moved one way; one that cannot be moved at all is left
 * out. Numbers without effect are left out too.
 *
 * @returns one entry a number, in the order of the file
 * @validity first order: the error of a slope is of the order of 1e-6 of the figure's own curvature
 */
export function sensitivities({ onProgress, ...options }: SensitivityOptions): readonly Sensitivity[] {
  const steps = sensitivitySteps(options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    onProgress?.(value.done, value.of);
  }
}

/** Numbers moved so far, and in all. */
export type SensitivitySteps = Generator<{ readonly done: number; readonly of: number }, readonly Sensitivity[]>;

/** The same, number by number, for a caller that must listen meanwhile. */
export function* sensitivitySteps({
  file,
  solution,
  solve,
  figures,
  most = 60,
}: Omit<SensitivityOptions, "onProgress">): SensitivitySteps {
  const { coil } = solution;
  const roots = figures && rootsOf(solution.figures, figures);
  const wide = figures?.some(movesByChord) ?? false;
  const stepAt = (path: string): number | undefined => {
    const step = stepOf(coil, path);
    if (step === undefined || !wide) return step;
    const tolerance = file.provenances.get(path)?.tolerance ?? 0;
    const least = widestStep * Math.abs(numberAt(coil, path) ?? 0);
    const widened = Math.max(step, tolerance, least);
    return Number.isInteger(step) ? Math.round(widened) : widened;
  };
  const paths = [...file.provenances.keys()]
    .filter((path) => roots === undefined || roots.some((root) => isUnder(path, root)))
    .filter((path) => stepAt(path) !== undefined)
    .slice(0, most);
  // Shifts by surroundings cost as much again; they are solved for only where one of them is asked about.
  const brief = !figures?.some((id) => id.startsWith("detuning."));
  const again = (moved: Coil): Solution => solve(moved, { brief });
  const all: Sensitivity[] = [];
  for (const [index, path] of paths.entries()) {
    const found = sensitivityTo(path, { solution, again, step: stepAt(path), oneSide: !wide });
    if (found) all.push(found);
    yield { done: index + 1, of: paths.length };
  }
  return all;
}

/** Paths of the coil file that figures stand on, through all figures between. */
export function rootsOf(all: Figures, ids: readonly string[]): readonly string[] {
  const seen = new Set<string>();
  const roots = new Set<string>();
  const open = [...ids];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (seen.has(id)) continue;
    seen.add(id);
    const found = all.get(id);
    if (found) open.push(...found.from);
    else roots.add(id);
  }
  return [...roots];
}

/** Whether a path of the file is a section, or lies in it. */
export const isUnder = (path: string, section: string): boolean => path === section || path.startsWith(`${section}.`);

/** The numbers of the file that a section stands for. */
export const pathsUnder = (provenances: Provenances, section: string): readonly string[] =>
  [...provenances.keys()].filter((path) => isUnder(path, section));

function stepOf(coil: Coil, path: string): number | undefined {
  const value = numberAt(coil, path);
  // The number of turns wound says only how far a tap can go.
  if (value === undefined || value === 0 || path === "primary.turns" || path === "coilwright") return undefined;
  if (path === "primary.tap" || !Number.isInteger(value) || path.split(".").length < 2) return relativeStep * value;
  if (!countsSomething(path)) return relativeStep * value;
  return value >= fewestToStep ? Math.max(1, Math.round(relativeStep * value)) : undefined;
}

const countsSomething = (path: string): boolean => /\.(turns|count|series|parallel)$/.test(path);

function sensitivityTo(
  path: string,
  {
    solution,
    again,
    step,
    oneSide,
  }: {
    solution: Solution;
    again: (moved: Coil) => Solution;
    step: number | undefined;
    /** Whether a number that moves nothing upwards is taken to move nothing downwards. */
    oneSide: boolean;
  },
): Sensitivity | undefined {
  const { coil } = solution;
  const value = numberAt(coil, path);
  if (value === undefined || step === undefined) return undefined;
  // A tap at the end of the primary can only move inwards.
  const atEnd = path === "primary.tap" && coil.primary !== undefined && value + step > coil.primary.turns;
  const above = atEnd ? undefined : attempt(() => again(withNumber(coil, path, value + step)));
  if (oneSide && above && !differs(above, solution)) return undefined;
  const below = attempt(() => again(withNumber(coil, path, value - step)));
  if (above === undefined && below === undefined) return undefined;
  const [upper, lower] = [above ?? solution, below ?? solution];
  const apart = (above ? step : 0) + (below ? step : 0);
  const slopes = new Map<string, number>();
  for (const [id, { value: now }] of solution.figures) {
    const high = upper.figures.get(id)?.value;
    const low = lower.figures.get(id)?.value;
    if (high === undefined || low === undefined) continue;
    const slope = (high - low) / apart;
    if (Math.abs(slope * value) > leastElasticity * Math.abs(now)) slopes.set(id, slope);
  }
  return slopes.size > 0 ? { path, value, slopes } : undefined;
}

/** Whether any figure moved by more than the solver's own error; a number that moves none is not solved for a second time. */
function differs(moved: Solution, { figures }: Solution): boolean {
  return [...figures].some(([id, { value }]) => {
    const now = moved.figures.get(id)?.value ?? value;
    return Math.abs(now - value) > leastElasticity * relativeStep * Math.abs(value);
  });
}

function attempt(make: () => Solution): Solution | undefined {
  try {
    return make();
  } catch {
    // A coil moved past what can be built has no figures; the other side still has.
    return undefined;
  }
}
