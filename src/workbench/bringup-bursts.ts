/** What a burst at a low bus should show, with the interval that tolerances and the model leave. */
import type { BurstResult } from "../burst/index.ts";
import type { BurstNetwork } from "../circuit/network.ts";
import type { CoilFile } from "../description/coil-file.ts";
import { normals } from "../numerics/normals.ts";
import type { Ampere, Hertz, Second, Volt } from "../units/si.ts";
import type { Solution } from "./contract.ts";
import { burstAt, networkToMove } from "./match-burst.ts";
import { fileParameters, modelParameters } from "./match-parameters.ts";
import { burstInputOf, pointOf } from "./match-point.ts";
import { pointAt } from "./match-predict.ts";

export interface Range {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface LowBurst {
  readonly bus: Volt;
  readonly onTime: Second;
  /** Whether the feedback catches: the bridge commutates by itself. */
  readonly catches: boolean;
  readonly peakCurrent: Range & { readonly unit?: Ampere };
  readonly frequency: (Range & { readonly unit?: Hertz }) | undefined;
  readonly topVoltage: Range;
  /** Of the coil as drawn, with its waveforms. */
  readonly result: BurstResult;
  /** The circuit of the coil as drawn at that bus, without a trip. */
  readonly network: BurstNetwork;
}

/** Coils drawn from the tolerances; fewer where one burst alone takes thousands of steps, of a tank far out of tune. */
const mostDraws = 40;
const fewestDraws = 5;
const usualSteps = 4000;
/** Quantiles of the 90 % interval. */
const [lowShare, highShare] = [0.05, 0.95];

/**
 * @returns undefined where the file has no complete bridge, supply, feedback, tank and primary
 * @source burst-simulation, model-uncertainty; tank, losses, coupling, f1 and feedback are drawn from their tolerances, the bus is exact
 */
export function lowBurst({
  file,
  solution,
  bus,
  onTime,
}: {
  file: CoilFile;
  solution: Solution;
  bus: Volt;
  onTime: Second;
}): LowBurst | undefined {
  const network = networkToMove(solution);
  if (!network || !(bus > 0 && onTime > 0)) return undefined;
  const drawn = { file, solution, moved: [] };
  const parameters = [...fileParameters(drawn), ...modelParameters(drawn, [])];
  const base = {
    point: () => pointOf(solution.coil, solution, [bus]),
    poleFactor: { lower: 1, upper: 1 },
    network,
    breakoutTime: Number.POSITIVE_INFINITY,
    offset: new Map(),
  };
  const run = (u: Float64Array, waveforms = false) =>
    burstAt(network, burstInputOf(pointAt(base, parameters, u), 0), { onTime, waveforms });
  const nominal = run(new Float64Array(parameters.length), true);
  const random = normals(7);
  const draws = Math.max(
    fewestDraws,
    Math.min(mostDraws, Math.round((mostDraws * usualSteps) / Math.max(1, nominal.steps))),
  );
  const spread = Array.from({ length: draws }, () => run(Float64Array.from(parameters, random)));
  const rangeOf = (value: number, all: readonly number[]): Range => {
    const sorted = all.filter(Number.isFinite).sort((a, b) => a - b);
    const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? value;
    return { value, low: Math.min(value, at(lowShare)), high: Math.max(value, at(highShare)) };
  };
  const catches = nominal.commutations.length > 3 && nominal.meanFrequency !== undefined;
  return {
    bus,
    onTime,
    catches,
    result: nominal,
    network: { ...network, bus: { ...network.bus, voltage: bus } },
    peakCurrent: rangeOf(
      nominal.peakPrimaryCurrent,
      spread.map(({ peakPrimaryCurrent }) => peakPrimaryCurrent),
    ),
    topVoltage: rangeOf(
      nominal.peakTopVoltage,
      spread.map(({ peakTopVoltage }) => peakTopVoltage),
    ),
    frequency:
      catches && nominal.meanFrequency !== undefined
        ? rangeOf(
            nominal.meanFrequency,
            spread.map(({ meanFrequency }) => meanFrequency ?? Number.NaN),
          )
        : undefined,
  };
}
