/** Random records of coils whose bridge floats after the drive, with their truth, for the tests of reading. */
import type { BenchRecord, Channel } from "../../src/description/record.ts";
import { type FloatingSignals, simulateFloating } from "./floating-bridge.ts";
import { chance, type Resonators, seen } from "./two-resonators.ts";

export type FloatingView = "current" | "top" | "flux" | "gate";

export interface FloatingRecipe {
  readonly seed: number;
  readonly views: readonly FloatingView[];
  readonly bursts?: number;
  readonly bits?: number;
}

export interface FloatingMade {
  readonly record: BenchRecord;
  readonly signals: FloatingSignals;
  readonly resonators: Resonators;
  readonly truth: {
    readonly onTime: number;
    readonly carrier: number;
    readonly rate: number;
    /** The secondary alone. */
    readonly line: { readonly frequency: number; readonly q: number; readonly decayTime: number };
  };
}

const lookOf = ({ primaryCurrent, secondaryCurrent, secondaryVoltage, gate }: FloatingSignals, view: FloatingView) =>
  view === "current"
    ? primaryCurrent
    : view === "top"
      ? secondaryVoltage
      : view === "gate"
        ? gate
        : secondaryCurrent.map((value, i) => value + 0.1 * primaryCurrent[i]!);

/** A record that begins and ends in quiet. */
export function floatingRecord({ seed, views, bursts = 1, bits = 8 }: FloatingRecipe): FloatingMade {
  const random = chance(seed);
  const { between } = random;
  const frequency = between(80e3, 350e3);
  const resonators: Resonators = {
    primaryFrequency: frequency * between(0.88, 1.01),
    secondaryFrequency: frequency,
    primaryQ: between(40, 120),
    secondaryQ: between(80, 250),
    coupling: between(0.08, 0.2),
  };
  const interval = 1 / (frequency * between(11, 22));
  const onTime = between(12, 40) / frequency;
  const period = onTime + (25 + (5 * resonators.secondaryQ) / Math.PI) / frequency;
  const lag = between(0, 0.05);
  const signals = simulateFloating(
    {
      resonators,
      onTime,
      starts: Array.from({ length: bursts }, (_, i) => 14.37 / frequency + i * period),
      lead: 0.03 / frequency,
      delay: (0.03 + lag) / frequency,
      dead: between(0, 0.03) / frequency,
      drop: between(0, 0.03),
      synchronous: random.uniform() < 0.5,
    },
    { start: 0, interval, length: Math.round((bursts * period + 16 / frequency) / interval) },
  );
  const noise = between(0.002, 0.01);
  const channels = views.map((view): Channel => {
    const clean = lookOf(signals, view);
    const peak = clean.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const shown = seen(
      clean.map((value) => value / peak),
      { noise, bits, offset: between(-0.05, 0.05) },
      random,
    );
    const role = view === "current" ? "primaryCurrent" : view === "gate" ? "gate" : "pickupLoop";
    return { name: view, role, unit: "V", samples: Float32Array.from(shown) };
  });
  const [first] = signals.bursts;
  const { commutations, start, end } = first!;
  const decay = (Math.PI * frequency) / resonators.secondaryQ;
  const rings = frequency * Math.sqrt(1 - 1 / (4 * resonators.secondaryQ ** 2));
  return {
    signals,
    resonators,
    record: { name: "", start: 0, interval, length: channels[0]!.samples.length, channels },
    truth: {
      onTime: end - start,
      carrier: (commutations.length - 1) / (2 * (commutations.at(-1)! - commutations[0]!)),
      rate: 1 / period,
      line: { frequency: rings, q: (Math.PI * rings) / decay, decayTime: 1 / decay },
    },
  };
}
