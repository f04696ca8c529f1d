/** What `--json` prints: figures by id, findings, and the curves that are no figures. */
import type { Figure } from "../../catalogue/figure.ts";
import type { Finding } from "../../catalogue/finding.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
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
  study,
  findings,
  doubts,
}: {
  solution?: Solution;
  study?: BurstStudy;
  findings: readonly Finding[];
  doubts?: Doubts;
}): CheckJson {
  return { quantities: quantitiesJson([...figuresOf(solution), ...figuresOf(study)], doubts), findings };
}

const figuresOf = (made: Solution | BurstStudy | undefined): readonly Figure[] => [...(made?.figures.values() ?? [])];

function quantitiesJson(figures: readonly Figure[], doubts: Doubts | undefined): CheckJson["quantities"] {
  return Object.fromEntries(
    figures.map(({ id, value, unit, low, high }) => {
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
}

/** As `checkJson`, with the profile of each mode, the points of greatest field, the detunings and the poles against tap and bank. */
export function tuneJson(parts: Omit<Parameters<typeof checkJson>[0], "study">) {
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

/** The figures of burst and driver with all findings, the setting that they are of, and what the numbers alone do not say. */
export function driverJson({
  study,
  findings,
  doubts,
}: {
  study?: BurstStudy;
  findings: readonly Finding[];
  doubts?: Doubts;
}) {
  const page = checkJson({ findings, ...(study ? { study } : {}), ...(doubts ? { doubts } : {}) });
  if (study === undefined) return page;
  const { setting, missing, remarks, reached, junction } = study;
  return {
    ...page,
    setting,
    missing,
    remarks,
    reached,
    junction: { time: Array.from(junction.time), temperature: Array.from(junction.temperature) },
  };
}

/** As `driverJson`, with the course of the burst: half-cycle by half-cycle, and at every change of the gates. */
export function burstJson(parts: Parameters<typeof driverJson>[0]) {
  const { study } = parts;
  if (study === undefined) return driverJson(parts);
  const { envelope, commutations, lock, train } = study;
  return {
    ...driverJson(parts),
    envelope: envelope.map(([time, current]) => ({ time, current })),
    commutations,
    ...(lock ? { lock } : {}),
    ...(train ? { train } : {}),
  };
}
