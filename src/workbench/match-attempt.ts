/** One cause tried alone, and what it explains. */
import type { Observed } from "../matching/fit/observed.ts";
import { baseOf } from "./match-base.ts";
import { type Cause, odds } from "./match-causes.ts";
import type { Explanation } from "./match-contract.ts";
import { type FittedProblem, fitProblem, priceOf } from "./match-fit.ts";
import type { Parameter } from "./match-parameters.ts";
import { assignedLines, type Base, type Problem, pointAt } from "./match-predict.ts";
import type { Solve } from "./solve.ts";

/** From a standard deviation to the half-width of a 90 % interval. */
export const ninety = 1.645;
/** 2·ln of the odds from which a cause is taken into the fit; and by how much it must lead the next one. */
const taken = { support: 6, lead: 4 };
/** Standard deviations of a fault beyond which it is no fault that anybody builds. */
const largestFault = 5;

export interface Attempt {
  readonly cause: Cause | undefined;
  readonly fit: FittedProblem;
  readonly parameter?: Parameter;
}

/** Fits, looks again which lines the tones are, and fits once more where that changed. */
export function settled(parts: Omit<Problem, "lines">, start?: Float64Array): FittedProblem {
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

const better = (fits: readonly FittedProblem[]): FittedProblem =>
  fits.reduce((best, one) => (one.surprise < best.surprise ? one : best));

/** The fit without a fault, and a little of the fault, which stands last. */
function beside({ u, problem }: FittedProblem, freed: readonly Parameter[], by: number): Float64Array {
  const at = new Map(problem.parameters.map(({ id }, n) => [id, u[n]!]));
  const there = Float64Array.from(freed, ({ id }) => at.get(id) ?? 0);
  there[freed.length - 1] = by;
  return there;
}

export function attempt({
  cause,
  parameters,
  observed,
  solve,
  plain,
}: {
  cause: Cause;
  parameters: readonly Parameter[];
  observed: readonly Observed[];
  solve: Solve;
  /** Without a fault. */
  plain: Attempt;
}): Attempt[] {
  const { base: plainBase } = plain.fit.problem;
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
    const freed = [...parameters.filter(({ id }) => id !== parameter.id), ...(cause.also ?? []), parameter];
    // A fault is begun on either side of what is drawn: with the bridge in it the squares have more than one valley.
    const starts = { both: [-0.5, 0.5], above: [0.5], below: [-0.5] }[cause.side];
    const from = (u: Float64Array): FittedProblem => settled({ base: plainBase, parameters: freed, observed }, u);
    const fits = starts.map((by) => {
      const u = new Float64Array(freed.length);
      u[freed.length - 1] = by;
      return from(u);
    });
    const best = better(fits);
    // From the fit without a fault on, no fault can do worse.
    const fit =
      best.surprise <= plain.fit.surprise
        ? best
        : better([best, ...starts.map((by) => from(beside(plain.fit, freed, by / 50)))]);
    return [{ cause, fit, parameter }];
  } catch (error) {
    // A coil that cannot be explains nothing.
    if (error instanceof RangeError) return [];
    throw error;
  }
}

/** 2·ln: a fault that can be in two ways has half of its odds for each. */
const oddsOf = (cause: Cause): number => (odds[cause.id] ?? 0) - 2 * Math.log(cause.ways ?? 1);

const freedomOf = (cause: Cause, fit: FittedProblem): number =>
  cause.kind === "switch" ? 0 : priceOf(fit, 1 + (cause.also?.length ?? 0));

/** Standard deviations of a fault within which its fit is one without it. */
const hardly = 0.1;

/** The fit without a fault, begun again where one with hardly any fault came out better: bursts have more than one valley. */
export function plainAgain(plain: Attempt, attempts: readonly Attempt[]): Attempt {
  const { parameters, base, observed } = plain.fit.problem;
  const ahead = attempts
    .filter(({ fit, parameter }) => parameter && Math.abs(fit.u.at(-1)!) < hardly)
    .reduce((best, one) => (one.fit.surprise < best.fit.surprise ? one : best), plain);
  if (plain.fit.surprise - ahead.fit.surprise < worthAgain) return plain;
  const { u, problem } = ahead.fit;
  const start = Float64Array.from(
    parameters,
    ({ id }) => u[problem.parameters.findIndex((each) => each.id === id)] ?? 0,
  );
  const fit = settled({ base, parameters, observed }, start);
  return fit.surprise < plain.fit.surprise ? { cause: undefined, fit } : plain;
}

/** χ² by which it must have come out better. */
const worthAgain = 0.5;

export function explanationOf({ cause, fit, parameter }: Attempt, plain: Attempt): Explanation[] {
  if (!cause || !Number.isFinite(fit.surprise)) return [];
  const common = {
    id: cause.id,
    chiSquare: fit.chiSquare,
    chiSquareDrawn: plain.fit.chiSquare,
    support: plain.fit.surprise - fit.surprise - freedomOf(cause, fit) + oddsOf(cause),
    check: cause.check,
  };
  if (cause.kind === "switch" || !parameter) {
    const { value, unit, says } = cause as Extract<Cause, { kind: "switch" }>;
    return [{ ...common, says, value, low: value, high: value, unit }];
  }
  const last = fit.u.length - 1;
  const at = fit.u[last]!;
  if (Math.abs(at) > largestFault) return [];
  const { drawn, sigma, unit } = parameter;
  if ((cause.side === "above" && at <= 0) || (cause.side === "below" && at >= 0)) {
    // On its own side it does no better than nothing.
    const { chiSquare } = plain.fit;
    const support = oddsOf(cause) - freedomOf(cause, fit);
    return [{ ...common, chiSquare, support, says: cause.says(drawn), value: drawn, low: drawn, high: drawn, unit }];
  }
  const half = ninety * sigma * Math.sqrt(fit.covariance[last * fit.u.length + last]!);
  const value = drawn + sigma * at;
  return [{ ...common, says: cause.says(value), value, low: value - half, high: value + half, unit }];
}

export function chosenOf(explanations: readonly Explanation[], attempts: readonly Attempt[]): Attempt | undefined {
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
