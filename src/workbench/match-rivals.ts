/** Causes that the records do not part, and the one further measurement that would. */
import type { Attempt } from "./match-attempt.ts";
import type { Explanation, ExplanationId, Rivals } from "./match-contract.ts";
import { spreadOf } from "./match-fit.ts";
import { figureSlopes, figuresAt } from "./match-report.ts";

/** 2·ln of odds within which one cause does not lead another; and from which a cause counts at all. */
const [lead, least] = [4, 1];
/** χ² that a cause must take off to count. */
const leastGain = 0.5;
const most = 2;
/** Standard deviations by which a measurement must part two causes. */
const parts = 2;

/** What can be measured besides, and the part by which it may be off. Common practice, no source. */
const measures: Readonly<Record<string, { readonly says: string; readonly error: number }>> = {
  "secondary.f1": { says: "a sweep with the tank open, for the secondary's own frequency", error: 5e-4 },
  "poles.lower": { says: "a sweep with the bridge shorted, for the lower pole", error: 5e-4 },
  "poles.upper": { says: "a sweep with the bridge shorted, for the upper pole", error: 5e-4 },
  "tank.capacitance": { says: "a capacitance meter at the bank, with the bus discharged and shorted", error: 0.01 },
  "primary.inductance": {
    says: "an inductance meter at the primary, from its inner end to the tap, with the tank open",
    error: 0.015,
  },
  "secondary.q": { says: "the ring-down of the secondary with the tank open, for its Q", error: 0.05 },
  "tank.q": { says: "the ring-down of the tank with the secondary taken away, for its Q", error: 0.05 },
};

/** What parts a cause from any other by itself. */
const byItself: Partial<Readonly<Record<ExplanationId, string>>> = {
  "person-near": "the same record again with the room about the top load clear",
  "bus-doubled": "a meter at the bus while the record is made",
  "bus-halved": "a meter at the bus while the record is made",
  "sense-reversed": "the same record with the sense transformer's leads swapped",
  "strike-ring-closed": "a look for the gap in the strike ring",
};

/**
 * The causes that follow the first too closely, each with what would part it from the first: the figure that the two fits foretell most
 * differently, over what both leave open of it and what an instrument may be off by.
 *
 * @param explanations  most supported first
 */
export function rivalsOf(explanations: readonly Explanation[], attempts: readonly Attempt[]): readonly Rivals[] {
  const counted = explanations.filter(
    ({ support, chiSquare, chiSquareDrawn }) => support >= least && chiSquareDrawn - chiSquare >= leastGain,
  );
  const [first, ...others] = counted;
  if (first === undefined) return [];
  return others
    .filter(({ support }) => first.support - support < lead)
    .slice(0, most)
    .map((other) => ({
      between: [first.id, other.id],
      says: [first.says, other.says],
      ...partedBy(first, other, attempts),
    }));
}

function partedBy(
  first: Explanation,
  other: Explanation,
  attempts: readonly Attempt[],
): Pick<Rivals, "measure" | "figure"> {
  const own = byItself[first.id] ?? byItself[other.id];
  if (own !== undefined) return { measure: own };
  const [a, b] = [first, other].map(({ id }) => foretoldBy(bestOf(attempts, id)));
  const best = Object.entries(measures)
    .map(([id, { says, error }]) => {
      const [x, y] = [a!(id), b!(id)];
      const apart = Math.abs(Math.log(x.value / y.value)) / Math.hypot(error, x.doubt, y.doubt);
      return { id, says, values: [x.value, y.value] as const, apart: Number.isFinite(apart) ? apart : 0 };
    })
    .reduce((most, one) => (one.apart > most.apart ? one : most));
  return best.apart < parts ? {} : { measure: best.says, figure: { id: best.id, values: best.values } };
}

const bestOf = (attempts: readonly Attempt[], id: ExplanationId): Attempt =>
  attempts
    .filter(({ cause }) => cause?.id === id)
    .reduce((best, one) => (one.fit.surprise < best.fit.surprise ? one : best));

/** Value and relative doubt of a figure by a fit. */
function foretoldBy({ fit }: Attempt): (id: string) => { readonly value: number; readonly doubt: number } {
  const values = figuresAt(fit.problem, fit.u);
  const slopes = figureSlopes(fit.problem, fit.u);
  return (id) => {
    const value = values.get(id) ?? Number.NaN;
    return { value, doubt: Number.isFinite(value) ? spreadOf(fit.covariance, slopes(id)) / Math.abs(value) : 0 };
  };
}
