/** The model made to agree with the bench: records in, fitted figures, what stays open, and what explains the difference. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Finding } from "../catalogue/finding.ts";
import { quantities } from "../catalogue/quantities.ts";
import type { Coil } from "../description/coil.ts";
import type { CoilFile } from "../description/coil-file.ts";
import type { Observed } from "../matching/fit/observed.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import { fullSetting } from "./burst-setting.ts";
import type { Solution } from "./contract.ts";
import { adoptEdits } from "./match-adopt.ts";
import { breakoutTimeOf, burstSeen, networkToMove } from "./match-burst.ts";
import { type Cause, causesOf, coilWithCause, odds } from "./match-causes.ts";
import type { Explanation, Match, MatchedFigure, MatchedParameter, Residual, Undetermined } from "./match-contract.ts";
import { type FittedProblem, fitProblem, spreadOf } from "./match-fit.ts";
import { lackingFor, type MatchRecord, observe } from "./match-observe.ts";
import { type Drawn, fileParameters, modelParameters, type Parameter } from "./match-parameters.ts";
import { burstInputOf, loopsOf, pointOf, shapeFigures } from "./match-point.ts";
import { assignedLines, type Base, type Problem, pointAt, polesWithoutLoss, seenAt } from "./match-predict.ts";
import { type Sensitivity, sensitivities } from "./sensitivities.ts";
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
  readonly onProgress?: (says: string) => void;
}

/** From a standard deviation to the half-width of a 90 % interval. */
const ninety = 1.645;
/** 2·ln of the odds from which a cause is taken into the fit; and by how much it must lead the next one. */
const taken = { support: 6, lead: 4 };
/** Standard deviations of a fault beyond which it is no fault that anybody builds. */
const largestFault = 5;
/** A cause that betters χ² by less explains nothing. */
const leastGain = 0.5;
/** Part of the drawing's doubt from which a parameter counts as left open. */
const open = 0.8;
/** χ² for each thing seen from which a fit explains too little to be adopted. */
const poorFrom = 5;
/** Part of a figure's doubt below which a number is not worth a line. */
const matters = 0.02;

interface Attempt {
  readonly cause: Cause | undefined;
  readonly fit: FittedProblem;
  readonly parameter?: Parameter;
}

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
  const { file, records, solve, onProgress } = options;
  if (!file.coil || records.length === 0) throw new OutOfDomain("match", "needs a coil and at least one record");
  const solution = options.solution ?? solve(file.coil, { brief: true });
  const moved =
    options.moved ??
    sensitivities({
      file,
      solution,
      solve,
      figures: shapeFigures,
      onProgress: (done, of) => onProgress?.(`moving the drawing, ${done} of ${of} numbers`),
    });
  const drawn: Drawn = { file, solution, moved };
  const supply = file.coil.supply ? fullSetting(file.coil, solution, {}).busVoltage : undefined;
  const seen = records.map((record) => observe(record, supply));
  const observed = seen.map((each, n) => weighed(each, n, baseOf(solution, seen)));
  if (observed.every(saysNothing)) return nothingSeen(records, observed);
  const parameters = [...fileParameters(drawn), ...modelParameters(drawn, observed)];
  const base = baseOf(solution, observed);
  onProgress?.("fitting");
  const plain: Attempt = { cause: undefined, fit: settled({ base, parameters, observed }) };
  const attempts = causesOf(drawn).flatMap((cause) => {
    onProgress?.(`trying: ${cause.id}`);
    return attempt({ cause, parameters, observed, solve, plainBase: base });
  });
  const explanations = attempts
    .flatMap((each) => explanationOf(each, plain))
    .filter(({ chiSquare, chiSquareDrawn }) => chiSquareDrawn - chiSquare >= leastGain)
    .sort((a, b) => b.support - a.support)
    .filter(({ id }, n, all) => all.findIndex((other) => other.id === id) === n);
  const chosen = chosenOf(explanations, attempts) ?? plain;
  const final = solvedAgain(chosen, { drawn, solve });
  return report({ drawn, records, observed, plain, chosen: final, explanations });
}

function baseOf(solution: Solution, observed: readonly Observed[], change?: Base["point"] | undefined): Base {
  const { coil } = solution;
  const network = networkToMove(solution);
  const buses = observed.map(({ bus }) => bus?.voltage ?? 0);
  const point = change ?? (() => pointOf(coil, solution, buses));
  const value = (id: string) => solution.figures.get(id)?.value;
  const [lower, upper] = [value("poles.lower"), value("poles.upper")];
  const without =
    lower === undefined
      ? undefined
      : polesWithoutLoss(loopsOf(pointOf(coil, solution, buses)), { poleFactor: { lower: 1, upper: 1 } });
  return {
    point,
    poleFactor: {
      lower: without && lower !== undefined ? lower / without.lower : 1,
      upper: without && upper !== undefined ? upper / without.upper : 1,
    },
    network,
    breakoutTime: network
      ? breakoutTimeOf(solution, network, coil.interrupter?.onTime ?? 100e-6)
      : Number.POSITIVE_INFINITY,
    offset: new Map(),
  };
}

const saysNothing = ({ tones, carrier, peaks }: Observed): boolean =>
  tones.length === 0 && carrier === undefined && peaks.length === 0;

/** Without anything to compare there is no fit: a drawn value is not shown as a measured one. */
const nothingSeen = (records: readonly MatchRecord[], observed: readonly Observed[]): Match => ({
  figures: new Map(),
  matched: [],
  parameters: [],
  undetermined: [],
  explanations: [],
  taken: undefined,
  residuals: [],
  chiSquare: 0,
  observations: 0,
  adopt: [],
  states: observed.map(({ record, state }) => ({ record, state })),
  findings: records.flatMap((record, n) => lackingFor(record, observed[n]!)),
});

/** Part of the current at full mains below which a record of unknown bus was made at a low one. */
const lowBus = 0.4;

/** Part of the current as drawn by which a height may be off where the current does not grow as drawn: a stalled or chattering bridge. */
const drawnShare = 0.02;

/**
 * The heights of the current, weighed. A record that shows far less current than an assumed bus would drive was made at another bus: then they
 * say nothing.
 */
function weighed(observed: Observed, n: number, base: Base): Observed {
  if (observed.peaks.length === 0 || !base.network) return observed;
  const expected = burstSeen(base.network, burstInputOf(base.point(), n), observed).peaks;
  const height = (peaks: readonly number[]) => Math.max(0, ...peaks);
  const drawn = height(expected);
  if (observed.bus?.assumed && height(observed.peaks.map(({ current }) => current)) < lowBus * drawn) {
    const { bus: _bus, ...rest } = observed;
    return { ...rest, peaks: [] };
  }
  const peaks = observed.peaks.map((peak) => ({ ...peak, error: Math.hypot(peak.error, drawnShare * drawn) }));
  return { ...observed, peaks };
}

/** Fits, looks again which lines the tones are, and fits once more where that changed. */
function settled(parts: Omit<Problem, "lines">, start?: Float64Array): FittedProblem {
  const linesAt = (u: Float64Array): Problem["lines"] => {
    const point = pointAt(parts.base, parts.parameters, u);
    return parts.observed.map((each, n) => assignedLines(parts.base, point, each, n));
  };
  const u = start ?? new Float64Array(parts.parameters.length);
  const lines = linesAt(u);
  const first = fitProblem({ ...parts, lines }, u);
  const after = linesAt(first.u);
  if (JSON.stringify(after) === JSON.stringify(lines)) return first;
  const second = fitProblem({ ...parts, lines: after }, u);
  return second.surprise < first.surprise ? second : first;
}

function attempt({
  cause,
  parameters,
  observed,
  solve,
  plainBase,
}: {
  cause: Cause;
  parameters: readonly Parameter[];
  observed: readonly Observed[];
  solve: Solve;
  plainBase: Base;
}): Attempt[] {
  try {
    if (cause.kind === "switch") {
      const base = cause.coil ? baseOf(solve(cause.coil, { brief: true }), observed) : plainBase;
      const { act } = cause;
      const point = (): ReturnType<Base["point"]> => {
        const at = base.point();
        act?.(at);
        return at;
      };
      return [{ cause, fit: settled({ base: { ...base, point }, parameters, observed }) }];
    }
    const { parameter } = cause;
    const freed = [...parameters.filter(({ id }) => id !== parameter.id), parameter];
    // A fault is begun on either side of what is drawn: with the bridge in it the squares have more than one valley.
    const starts = { both: [-0.5, 0.5], above: [0.5], below: [-0.5] }[cause.side];
    const fits = starts.map((by) => {
      const u = new Float64Array(freed.length);
      u[freed.length - 1] = by;
      return settled({ base: plainBase, parameters: freed, observed }, u);
    });
    const fit = fits.reduce((best, one) => (one.surprise < best.surprise ? one : best));
    return [{ cause, fit, parameter }];
  } catch (error) {
    // A coil that cannot be explains nothing.
    if (error instanceof RangeError) return [];
    throw error;
  }
}

function explanationOf({ cause, fit, parameter }: Attempt, plain: Attempt): Explanation[] {
  if (!cause || !Number.isFinite(fit.surprise)) return [];
  const common = {
    id: cause.id,
    chiSquare: fit.chiSquare,
    chiSquareDrawn: plain.fit.chiSquare,
    support: plain.fit.surprise - fit.surprise + (odds[cause.id] ?? 0),
    check: cause.check,
  };
  if (cause.kind === "switch" || !parameter) {
    const { value, unit, says } = cause as Extract<Cause, { kind: "switch" }>;
    return [{ ...common, says, value, low: value, high: value, unit }];
  }
  const last = fit.u.length - 1;
  const at = fit.u[last]!;
  if ((cause.side === "above" && at <= 0) || (cause.side === "below" && at >= 0) || Math.abs(at) > largestFault)
    return [];
  const { drawn, sigma, unit } = parameter;
  const half = ninety * sigma * Math.sqrt(fit.covariance[last * fit.u.length + last]!);
  const value = drawn + sigma * at;
  return [{ ...common, says: cause.says(value), value, low: value - half, high: value + half, unit }];
}

function chosenOf(explanations: readonly Explanation[], attempts: readonly Attempt[]): Attempt | undefined {
  const [first, second] = explanations;
  if (!first || first.support < taken.support) return undefined;
  if (second && first.support - second.support < taken.lead) return undefined;
  return attempts
    .filter(({ cause }) => cause?.id === first.id)
    .reduce<Attempt | undefined>(
      (best, one) => (best && best.fit.surprise <= one.fit.surprise ? best : one),
      undefined,
    );
}

/** Solves shape and room at the fitted numbers, takes what the slopes missed as an offset, and fits again from there; twice. */
function solvedAgain(found: Attempt, { drawn, solve }: { drawn: Drawn; solve: Solve }): Attempt {
  let current = found;
  for (let round = 0; round < 2; round++) {
    const { problem, u } = current.fit;
    const { base, parameters } = problem;
    const start = current.cause?.kind === "switch" && current.cause.coil ? current.cause.coil : drawn.solution.coil;
    const shaped = parameters.filter(({ logSlopes, paths }) => logSlopes.size > 0 && paths.length > 0);
    const there = shaped.reduce((coil, parameter) => {
      const value = parameter.drawn + parameter.sigma * u[parameters.indexOf(parameter)]!;
      // The tap may stand elsewhere in the cause's coil: every number moves by its change.
      return parameter.paths.includes("secondary.turns") ? coil : coilWithCause(coil, parameter, value);
    }, start);
    const offset = offsetAt({ there, start, solve, parameters: shaped, all: parameters, u });
    if (offset === undefined) return current;
    const moved = [...offset].reduce((most, [id, by]) => Math.max(most, Math.abs(by - (base.offset.get(id) ?? 0))), 0);
    if (moved < 1e-5) return current;
    const fit = fitProblem({ ...problem, base: { ...base, offset } }, u);
    current = { ...current, fit };
  }
  return current;
}

function offsetAt({
  there,
  start,
  solve,
  parameters,
  all,
  u,
}: {
  there: Coil;
  start: Coil;
  solve: Solve;
  parameters: readonly Parameter[];
  all: readonly Parameter[];
  u: Float64Array;
}): Base["offset"] | undefined {
  try {
    const [from, to] = [solve(start, { brief: true }).figures, solve(there, { brief: true }).figures];
    return new Map(
      shapeFigures.flatMap((id) => {
        const [before, after] = [from.get(id)?.value, to.get(id)?.value];
        if (!before || !after) return [];
        const first = parameters
          .filter(({ paths }) => !paths.includes("secondary.turns"))
          .reduce((sum, each) => sum + (each.logSlopes.get(id) ?? 0) * each.sigma * u[all.indexOf(each)]!, 0);
        return [[id, Math.log(after / before) - first] as const];
      }),
    );
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** Figures of the fit by the id of their drawn twin. */
function figuresAt({ base, parameters }: Problem, u: Float64Array): ReadonlyMap<string, number> {
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
function slopesOf(problem: Problem, u: Float64Array): (twin: string) => readonly number[] {
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
  const fitted = slopesOf(problem, u);
  const start = new Float64Array(plain.parameters.length);
  const before = slopesOf(plain, start);
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
  const slopes = slopesOf(problem, start);
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

function report({
  drawn,
  records,
  observed,
  plain,
  chosen,
  explanations,
}: {
  drawn: Drawn;
  records: readonly MatchRecord[];
  observed: readonly Observed[];
  plain: Attempt;
  chosen: Attempt;
  explanations: readonly Explanation[];
}): Match {
  const matched = matchedFigures(plain.fit.problem, chosen);
  const parameters = matchedParameters(chosen);
  const residuals = residualsOf(plain, chosen, observed);
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
    adopt: poor ? [] : adoptEdits(drawn, chosen.cause, parameters),
    states: observed.map(({ record, state }) => ({ record, state })),
    findings: [
      ...records.flatMap((record, n) => lackingFor(record, observed[n]!)),
      ...(poor ? [poorFit(chosen.fit)] : []),
    ],
  };
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
