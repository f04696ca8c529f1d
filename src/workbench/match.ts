/** The model made to agree with the bench: records in, fitted figures, what stays open, and what explains the difference. */

import type { Finding } from "../catalogue/finding.ts";
import type { CoilFile } from "../description/coil-file.ts";
import type { Observed } from "../matching/fit/observed.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import { formatQuantity } from "../units/format.ts";
import { fullSetting } from "./burst-setting.ts";
import type { Solution } from "./contract.ts";
import { solvedAgain } from "./match-again.ts";
import { type Attempt, attempt, chosenOf, explanationOf, plainAgain, settled } from "./match-attempt.ts";
import { baseOf, weighed } from "./match-base.ts";
import { causesOf } from "./match-causes.ts";
import type { Match } from "./match-contract.ts";
import { lackingFor, type MatchRecord, observe } from "./match-observe.ts";
import { type Drawn, fileParameters, modelParameters } from "./match-parameters.ts";
import { shapeFigures } from "./match-point.ts";
import type { Problem } from "./match-predict.ts";
import { report } from "./match-report.ts";
import { rivalsOf } from "./match-rivals.ts";
import { type Sensitivity, type SensitivitySteps, sensitivitySteps } from "./sensitivities.ts";
import type { Solve } from "./solve.ts";

export type { MatchRecord, SweepRecord, TimeRecord } from "./match-observe.ts";

export interface MatchOptions {
  readonly file: CoilFile;
  /** At least one. */
  readonly records: readonly MatchRecord[];
  readonly solve: Solve;
  /** Of the coil as drawn; solved where absent. */
  readonly solution?: Solution;
  /** Of the figures of the shape, where they are known already. */
  readonly moved?: readonly Sensitivity[];
  /** Day that the comments of adopted numbers name, as `2026-11-25`. */
  readonly date?: string;
  readonly onProgress?: (says: string) => void;
}

/** A step of a match that is about to be taken, in words; between two of them it can be given up. */
export type MatchSteps = Generator<string, Match>;

/**
 * Fits the coil to records.
 *
 * All numbers of the file move within their tolerances and the model within its own uncertainty, so that the fit explains the records with as
 * little as it can; each cause is then tried alone with the freedom of a fault. Shape and room are moved by their first-order effects, and
 * solved again at the end; tank, poles, losses and bursts are computed in full throughout.
 *
 * @throws OutOfDomain  the file has no coil, or no record is given
 * @source levenberg-marquardt, laplace-evidence, docs/bench.md
 */
export function match(options: MatchOptions): Match {
  const steps = matchSteps(options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    options.onProgress?.(value);
  }
}

/** The same, step by step, for a caller that must listen meanwhile. @throws OutOfDomain as `match` */
export function* matchSteps({ file, records, solve, ...options }: Omit<MatchOptions, "onProgress">): MatchSteps {
  if (!file.coil || records.length === 0) throw new OutOfDomain("match", "needs a coil and at least one record");
  const solution = options.solution ?? solve(file.coil, { brief: true });
  const moved =
    options.moved ?? (yield* movedDrawing(sensitivitySteps({ file, solution, solve, figures: shapeFigures })));
  const drawn: Drawn = { file, solution, moved };
  const supply = file.coil.supply ? fullSetting(file.coil, solution, {}).busVoltage : undefined;
  const seen = records.map((record) => observe(record, supply));
  const asSensed = problemOf(drawn, seen);
  if (asSensed.observed.every(saysNothing)) return nothingSeen(records, asSensed.observed);
  yield "fitting";
  const { first, evenly } = firstFit(drawn, seen, asSensed);
  const { parameters, observed } = first.fit.problem;
  const attempts: Attempt[] = [];
  for (const cause of causesOf(drawn, observed)) {
    yield `trying: ${cause.id}`;
    attempts.push(...attempt({ cause, parameters, observed, solve, plain: first }));
  }
  const plain = plainAgain(first, attempts);
  const explanations = attempts
    .flatMap((each) => explanationOf(each, plain))
    .sort((a, b) => b.support - a.support)
    .filter(({ id }, n, all) => all.findIndex((other) => other.id === id) === n);
  const chosen = chosenOf(explanations, attempts) ?? plain;
  yield "solving again at the fit";
  const final = solvedAgain(chosen, { drawn, solve });
  const made = report({ drawn, records, observed, plain, chosen: final, explanations, date: options.date });
  return {
    ...made,
    rivals: rivalsOf(explanations, attempts),
    findings: [...made.findings, ...evenly.map((each) => drivenEvenly(each))],
  };
}

function problemOf(drawn: Drawn, seen: readonly Observed[]): Omit<Problem, "lines"> {
  const { solution } = drawn;
  const drawnBase = baseOf(solution, seen);
  const observed = seen.map((each, n) => weighed(each, n, { base: drawnBase, solution }));
  return {
    observed,
    parameters: [...fileParameters(drawn), ...modelParameters(drawn, observed)],
    base: { ...baseOf(solution, observed), network: drawnBase.network },
  };
}

/** By which χ² must fall for a bridge that should follow the coil to be taken for one that a generator drives. */
const drivenOtherwise = 25;

/**
 * Without a fault. Where a current looks as driven at one frequency and a bridge that senses the coil does not explain it, the record is
 * taken for one made with a generator at the bridge.
 */
function firstFit(
  drawn: Drawn,
  seen: readonly Observed[],
  asSensed: Omit<Problem, "lines">,
): { readonly first: Attempt; readonly evenly: readonly Observed[] } {
  const first: Attempt = { cause: undefined, fit: settled(asSensed) };
  const { feedback } = drawn.solution.coil;
  const held = seen.map((each) => heldEvenly(each));
  const evenly = held.filter(({ fixedFrequency }) => fixedFrequency !== undefined);
  if (feedback === undefined || typeof feedback.sense === "object" || evenly.length === 0) return { first, evenly: [] };
  const other: Attempt = { cause: undefined, fit: settled(problemOf(drawn, held)) };
  return other.fit.chiSquare + drivenOtherwise < first.fit.chiSquare ? { first: other, evenly } : { first, evenly: [] };
}

function heldEvenly(each: Observed): Observed {
  const { carrier, evenly, ...rest } = each;
  return evenly && carrier ? { ...rest, fixedFrequency: carrier.value } : each;
}

const drivenEvenly = ({ record, fixedFrequency }: Observed): Finding => ({
  rule: "match-driven-evenly",
  severity: "look",
  path: "feedback.sense",
  what: `${record}: the bridge was driven at ${formatQuantity(fixedFrequency ?? 0, "Hz", { digits: 5 })} throughout and did not follow the coil as the file says; the fit takes it so`,
  expected: "a record of the coil driven as the file says, or a generator at the bridge",
  evidence: [],
  remedies: [
    { says: "where the coil runs so by itself, give the file this frequency in place of what it senses", edits: [] },
  ],
});

function* movedDrawing(steps: SensitivitySteps): Generator<string, readonly Sensitivity[]> {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    yield `moving the drawing, ${value.done} of ${value.of} numbers`;
  }
}

const saysNothing = ({ tones, driven, carrier, peaks }: Observed): boolean =>
  tones.length === 0 && driven === undefined && carrier === undefined && peaks.length === 0;

/** Without anything to compare there is no fit: a drawn value is not shown as a measured one. */
const nothingSeen = (records: readonly MatchRecord[], observed: readonly Observed[]): Match => ({
  figures: new Map(),
  matched: [],
  parameters: [],
  undetermined: [],
  explanations: [],
  rivals: [],
  taken: undefined,
  residuals: [],
  chiSquare: 0,
  observations: 0,
  adopt: [],
  bursts: [],
  states: observed.map(({ record, state }) => ({ record, state })),
  findings: records.flatMap((record, n) => lackingFor(record, observed[n]!)),
});
