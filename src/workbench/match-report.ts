/** The answer of a match from its fit: figures, parameters, what stays open, residuals, edits. */

import { type Figure, figure } from "../catalogue/figure.ts";
import type { Finding } from "../catalogue/finding.ts";
import { quantities } from "../catalogue/quantities.ts";
import type { Observed } from "../matching/fit/observed.ts";
import { adoptEdits } from "./match-adopt.ts";
import { type Attempt, ninety } from "./match-attempt.ts";
import type { Explanation, Match, MatchedFigure, MatchedParameter, Residual, Undetermined } from "./match-contract.ts";
import { type FittedProblem, spreadOf } from "./match-fit.ts";
import { lackingFor, type MatchRecord, nameOf } from "./match-observe.ts";
import type { Drawn } from "./match-parameters.ts";
import { burstInputOf, loopsOf } from "./match-point.ts";
import { type Problem, pointAt, polesWithoutLoss, seenAt } from "./match-predict.ts";
import { isMadeUp } from "./match-seen.ts";

/** Part of the drawing's doubt from which a parameter counts as left open. */
const open = 0.8;
/** χ² for each thing seen from which a fit explains too little to be adopted. */
const poorFrom = 5;
/** Part of a figure's doubt below which a number is not worth a line. */
const matters = 0.02;

/** Figures of the fit by the id of their drawn twin. */
export function figuresAt({ base, parameters }: Problem, u: Float64Array): ReadonlyMap<string, number> {
  const point = pointAt(base, parameters, u);
  const loops = loopsOf(point);
  const { shape } = point;
  const always: [string, number][] = [
    ["secondary.f1", loops.f1],
    ["secondary.q", shape["secondary.qUnloaded"]],
    ["secondary.inductance", shape["secondary.inductance"]],
    ["secondary.energyCapacitance", shape["secondary.energyCapacitance"]],
  ];
  if (!Number.isFinite(loops.tankFrequency)) return new Map(always);
  const poles = polesWithoutLoss(loops, base);
  return new Map([
    ...always,
    ["primary.inductance", shape["primary.inductance"]],
    ["tank.capacitance", loops.capacitance],
    ["tank.inductance", loops.tankInductance],
    ["tank.frequency", loops.tankFrequency],
    ["tank.q", loops.tankQ],
    ["coupling.k", shape["coupling.k"]],
    ["coupling.kMode1", shape["coupling.kMode1"]],
    ["poles.lower", poles.lower],
    ["poles.upper", poles.upper],
    ["tuning.ratio", loops.tankFrequency / loops.f1],
  ]);
}

/** Drawn twins that have another name than the fitted figure. */
const twins: Readonly<Record<string, string>> = { "secondary.q": "secondary.qUnloaded" };

const step = 1e-3;

/** Slopes of a figure in u, by the id of its twin. */
export function figureSlopes(problem: Problem, u: Float64Array): (twin: string) => readonly number[] {
  const now = figuresAt(problem, u);
  const moved = problem.parameters.map((_, n) => {
    const there = u.slice();
    there[n]! += step;
    return figuresAt(problem, there);
  });
  return (twin) => moved.map((there) => (there.get(twin)! - now.get(twin)!) / step);
}

function matchedFigures(plain: Problem, { fit }: Attempt): readonly MatchedFigure[] {
  const { u, problem, covariance } = fit;
  const fitted = figureSlopes(problem, u);
  const start = new Float64Array(plain.parameters.length);
  const before = figureSlopes(plain, start);
  const drawn = figuresAt(plain, start);
  return [...figuresAt(problem, u)].flatMap(([twin, value]): MatchedFigure[] => {
    const id = `match.${twin}`;
    const quantity = quantities.get(id);
    const from = drawn.get(twin);
    if (!quantity || from === undefined || !Number.isFinite(value)) return [];
    const spread = spreadOf(covariance, fitted(twin));
    const prior = Math.hypot(...before(twin));
    return [
      {
        id,
        twin: twins[twin] ?? twin,
        drawn: from,
        value,
        low: value - ninety * spread,
        high: value + ninety * spread,
        unit: quantity.unit,
        shift: prior > 0 ? (value - from) / prior : 0,
        left: prior > 0 ? spread / prior : 1,
      },
    ];
  });
}

function matchedParameters({ fit }: Attempt): readonly MatchedParameter[] {
  const { u, problem, covariance } = fit;
  const size = u.length;
  return problem.parameters.map(({ id, says, paths, drawn, sigma, unit }, n) => {
    const left = Math.sqrt(covariance[n * size + n]!);
    const value = drawn + sigma * u[n]!;
    const half = ninety * sigma * left;
    return { id, says, paths, drawn, value, low: value - half, high: value + half, unit, shift: u[n]!, left };
  });
}

/** By parameter, the greatest part that it has in the drawing's doubt (variance) of any fitted figure. */
function influenceOf(problem: Problem): (id: string) => number {
  const start = new Float64Array(problem.parameters.length);
  const slopes = figureSlopes(problem, start);
  const shares = problem.parameters.map(() => 0);
  for (const twin of figuresAt(problem, start).keys()) {
    const of = slopes(twin);
    const variance = of.reduce((sum, slope) => sum + slope * slope, 0);
    of.forEach((slope, n) => {
      if (variance > 0) shares[n] = Math.max(shares[n]!, (slope * slope) / variance);
    });
  }
  return (id) => shares[problem.parameters.findIndex((each) => each.id === id)] ?? 1;
}

/** Numbers of the file that matter to a figure and that the records leave as open as the drawing did. */
function undeterminedOf(
  { fit }: Attempt,
  parameters: readonly MatchedParameter[],
  influence: (id: string) => number,
): readonly Undetermined[] {
  const size = fit.u.length;
  const correlation = (a: number, b: number) =>
    fit.covariance[a * size + b]! / Math.sqrt(fit.covariance[a * size + a]! * fit.covariance[b * size + b]!);
  return parameters.flatMap(({ id, says, paths, left }, n): Undetermined[] => {
    if (paths.length === 0 || left < open || influence(id) < matters) return [];
    const partner = parameters
      .map((other, m) => ({ other, together: m === n ? 0 : Math.abs(correlation(n, m)) }))
      .reduce((best, one) => (one.together > best.together ? one : best));
    const trades = partner.together > 0.3 ? partner.other : undefined;
    return [
      {
        id,
        says,
        left,
        ...(trades ? { tradesWith: trades.id } : {}),
        because: trades
          ? `these records see it only together with ${trades.says}; measure one of the two by itself`
          : "these records hardly depend on it within its tolerance; measure it directly if it matters",
      },
    ];
  });
}

export function report({
  drawn,
  records,
  observed,
  plain,
  chosen,
  explanations,
  date,
}: {
  drawn: Drawn;
  records: readonly MatchRecord[];
  observed: readonly Observed[];
  plain: Attempt;
  chosen: Attempt;
  explanations: readonly Explanation[];
  date: string | undefined;
}): Omit<Match, "rivals"> {
  const matched = matchedFigures(plain.fit.problem, chosen);
  const parameters = matchedParameters(chosen);
  const residuals = residualsOf(plain, chosen, observed);
  const madeUp = records.filter(isMadeUp).map(nameOf);
  const poor = chosen.fit.chiSquare > poorFrom * Math.max(4, residuals.length);
  return {
    figures: new Map(matched.map((each) => [each.id, figureOf(each)])),
    matched,
    parameters,
    undetermined: undeterminedOf(chosen, parameters, influenceOf(plain.fit.problem)),
    explanations,
    taken: chosen.cause?.id,
    residuals,
    chiSquare: chosen.fit.chiSquare,
    observations: residuals.length,
    adopt:
      poor || madeUp.length > 0
        ? []
        : adoptEdits(drawn, chosen.cause, { parameters, adoption: { records: records.length, date } }),
    bursts: burstsOf(plain, chosen, observed),
    states: observed.map(({ record, state }) => ({ record, state })),
    findings: [
      ...records.flatMap((record, n) => lackingFor(record, observed[n]!)),
      ...(poor ? [poorFit(chosen.fit)] : []),
      ...(madeUp.length > 0 ? [practiceOnly(madeUp)] : []),
    ],
  };
}

/** What each record's burst depends on, at what is drawn and at the fit. */
function burstsOf(plain: Attempt, chosen: Attempt, observed: readonly Observed[]): Match["bursts"] {
  const at = ({ base, parameters }: Problem, u: Float64Array) => {
    const point = pointAt(base, parameters, u);
    return observed.map((_, n) => burstInputOf(point, n));
  };
  const drawn = at(plain.fit.problem, new Float64Array(plain.fit.u.length));
  const fitted = at(chosen.fit.problem, chosen.fit.u);
  return observed.map((_, n) => ({ drawn: drawn[n]!, fitted: fitted[n]! }));
}

const poorFit = ({ chiSquare }: FittedProblem): Finding => ({
  rule: "match-poor",
  severity: "fix",
  path: "",
  what: `no cause that is known here explains these records: χ² stays at ${chiSquare.toPrecision(3)}, so that the fitted values stand on little`,
  expected: "residuals of a few standard deviations",
  evidence: [],
  remedies: [
    {
      says: "look at the residuals for what is off; check channel, scale, sense and bus voltage; take a record at low bus",
      edits: [],
    },
  ],
});

const practiceOnly = (names: readonly string[]): Finding => ({
  rule: "match-made-up",
  severity: "look",
  path: "",
  what: `${names.join(", ")} ${names.length === 1 ? "was" : "were"} made up for practice: nothing is taken over into the file, or logged`,
  expected: "a record of this coil",
  evidence: [],
  remedies: [{ says: "look at what was found, and at what had been changed; then record the coil itself", edits: [] }],
});

const figureOf = ({ id, value, low, high, twin }: MatchedFigure): Figure =>
  figure(id, value, { from: [twin], source: "bench-match", low, high });

function residualsOf(plain: Attempt, chosen: Attempt, observed: readonly Observed[]): readonly Residual[] {
  const start = new Float64Array(plain.fit.u.length);
  const before = seenAt({ ...plain.fit.problem, lines: chosen.fit.problem.lines }, start);
  return seenAt(chosen.fit.problem, chosen.fit.u).flatMap((record, n) =>
    record.map(({ says, measured, predicted, unit, residual }, m) => ({
      record: observed[n]!.record,
      says,
      measured,
      drawn: before[n]?.[m]?.predicted ?? Number.NaN,
      fitted: predicted,
      unit,
      sigmas: residual,
    })),
  );
}
