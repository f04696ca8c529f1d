/** Random records of two resonators with their truth, for the tests of reading. */
import type { BenchRecord, ChannelRole } from "../../src/description/record.ts";
import { type Chance, chance, polesOf, type Resonators, type Signals, seen, simulate } from "./two-resonators.ts";

export interface Truth {
  readonly onTime: number;
  readonly rate: number;
  /** Of the bridge: the frequency it is given, or (commutations − 1) / (2 × time from the first to the last). */
  readonly carrier: number;
  /** Lower first. */
  readonly poles: readonly { readonly frequency: number; readonly q: number; readonly decayTime: number }[];
  /** The primary's frequency, for tolerances in half-cycles. */
  readonly frequency: number;
}

export interface Made {
  readonly drive: "feedback" | number;
  readonly record: BenchRecord;
  readonly truth: Truth;
  readonly signals: Signals;
  readonly starts: readonly number[];
}

export interface Recipe {
  readonly seed: number;
  readonly channel?: "primaryCurrent" | "pickupLoop";
  readonly bursts?: number;
  /** Standard deviation of the starts [s]. */
  readonly jitter?: number;
  readonly single?: boolean;
  /** Longest on-time in cycles, 35 where not said. */
  readonly longest?: number;
  readonly bits?: number;
  /** Greatest noise, as a part of the peak. */
  readonly noise?: number;
  readonly range?: number;
  readonly offset?: number;
  /** Time of the first sample [s]. */
  readonly triggeredAt?: number;
}

/** A record that begins and ends in quiet. */
export function randomRecord(recipe: Recipe): Made {
  const random = chance(recipe.seed);
  const { between } = random;
  const frequency = between(80e3, 350e3);
  const resonators: Resonators = {
    primaryFrequency: frequency * between(0.95, 1.05),
    secondaryFrequency: frequency,
    primaryQ: between(40, 120),
    secondaryQ: between(80, 200),
    coupling: recipe.single === true ? 0 : between(0.07, 0.2),
  };
  const interval = 1 / (frequency * between(11, 22));
  const onTime = between(15, recipe.longest ?? 35) / frequency;
  const slowest = Math.max(...(recipe.single === true ? [] : [resonators.secondaryQ]), resonators.primaryQ);
  const period = onTime + (7 * slowest) / Math.PI / frequency;
  const bursts = recipe.bursts ?? 1;
  const triggeredAt = recipe.triggeredAt ?? 0;
  const starts = Array.from(
    { length: bursts },
    (_, i) => triggeredAt + 14.37 / frequency + i * period + (recipe.jitter ?? 0) * random.normal(),
  );
  const length = Math.round((bursts * period + 16 / frequency) / interval);
  const train = {
    resonators,
    drive: random.uniform() < 0.6 ? ("feedback" as const) : frequency * between(0.97, 1.03),
    onTime,
    starts,
  };
  const signals = simulate(train, { start: triggeredAt, interval, length });
  const channel = recipe.channel ?? "primaryCurrent";
  const clean = channel === "primaryCurrent" ? signals.primaryCurrent : signals.secondaryVoltage;
  const record = recordOf(clean, { recipe, random, interval, role: channel });
  const poles =
    recipe.single === true
      ? [
          {
            frequency: resonators.primaryFrequency * Math.sqrt(1 - 1 / (4 * resonators.primaryQ ** 2)),
            decay: (Math.PI * resonators.primaryFrequency) / resonators.primaryQ,
          },
        ]
      : polesOf(resonators);
  return {
    record: { ...record, start: triggeredAt },
    drive: train.drive,
    signals,
    starts,
    truth: {
      onTime,
      rate: 1 / period,
      frequency,
      carrier: train.drive === "feedback" ? meanRate(signals.commutations[0]!) : train.drive,
      poles: poles.map((pole) => ({
        frequency: pole.frequency,
        q: (Math.PI * pole.frequency) / pole.decay,
        decayTime: 1 / pole.decay,
      })),
    },
  };
}

function recordOf(
  clean: Float64Array,
  { recipe, random, interval, role }: { recipe: Recipe; random: Chance; interval: number; role: ChannelRole },
): BenchRecord {
  const noise = random.between(0.002, recipe.noise ?? 0.01);
  const offset = recipe.offset ?? random.between(-0.05, 0.05);
  const samples = Float32Array.from(
    seen(
      clean,
      { noise, bits: recipe.bits ?? 8, offset, ...(recipe.range === undefined ? {} : { range: recipe.range }) },
      random,
    ),
  );
  return {
    name: "",
    start: 0,
    interval,
    length: samples.length,
    channels: [{ name: "one", role, unit: "V", samples }],
  };
}

function meanRate(commutations: readonly number[]): number {
  return (commutations.length - 1) / (2 * (commutations[commutations.length - 1]! - commutations[0]!));
}

/** The value that the part `share` of the values does not exceed. */
export const quantile = (values: readonly number[], share: number) =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))]!;
