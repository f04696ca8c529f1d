/** What `--json` prints: figures by id, findings, and the curves that are no figures. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Solution } from "../../workbench/contract.ts";
import type { Doubts } from "../../workbench/doubts.ts";

export interface QuantityJson {
  readonly value: number;
  readonly unit: string;
  readonly low?: number;
  readonly high?: number;
}

export interface CheckJson {
  readonly quantities: Readonly<Record<string, QuantityJson>>;
  readonly findings: readonly Finding[];
}

/** Values in SI, the unit beside each; `low` and `high` are the 90 % interval where the uncertainty was asked for. */
export function checkJson({
  solution,
  findings,
  doubts,
}: {
  solution?: Solution;
  findings: readonly Finding[];
  doubts?: Doubts;
}): CheckJson {
  const quantities = Object.fromEntries(
    [...(solution?.figures.values() ?? [])].map(({ id, value, unit, low, high }) => {
      const doubt = doubts?.get(id);
      const [from, to] = doubt ? [doubt.low, doubt.high] : [low, high];
      return [
        id,
        {
          value,
          unit,
          ...(from === undefined || to === undefined ? {} : { low: from, high: to }),
        } satisfies QuantityJson,
      ];
    }),
  );
  return { quantities, findings };
}

/** As `checkJson`, with the profile of each mode, the points of greatest field, the detunings and the poles against tap and bank. */
export function tuneJson(parts: Parameters<typeof checkJson>[0]) {
  const { solution } = parts;
  if (solution === undefined) return checkJson(parts);
  const numbers = (values: Float64Array) => Array.from(values);
  return {
    ...checkJson(parts),
    profile: solution.modes.map(({ frequency, height, voltage, current, field }) => ({
      frequency,
      height: numbers(height),
      voltage: numbers(voltage),
      current: numbers(current),
      field: numbers(field),
    })),
    peaks: solution.peaks,
    detunings: solution.detunings,
    tracks: solution.tracks.map(({ against, at, lower, upper, ratio }) => ({
      against,
      at: numbers(at),
      lower: numbers(lower),
      upper: numbers(upper),
      ratio: numbers(ratio),
    })),
  };
}
