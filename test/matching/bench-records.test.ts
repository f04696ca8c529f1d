/**
 * Records made by a general-purpose circuit simulator, as an instrument of 8 bits shows them. Independent: the truth is the netlists' own
 * (the poles from the coupled-circuit formula, carrier, on-time and repetition from the sources); the product's solver has no part in it.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { type RecordReading, readRecord } from "../../src/matching/record.ts";
import {
  type BenchCoil,
  type BenchRun,
  benchCoil,
  type Look,
  polesOfBench,
  runBench,
  seenOnBench,
} from "./bench-netlists.ts";

const coils = {
  "below the lower pole": benchCoil({
    frequency: 200e3,
    detuning: 0.96,
    coupling: 0.12,
    qualities: [60, 130],
    drive: 0.918,
    cycles: 20,
    period: 320,
    bursts: 3,
  }),
  "between the poles": benchCoil({
    frequency: 310e3,
    detuning: 1,
    coupling: 0.16,
    qualities: [50, 90],
    drive: 0.95,
    cycles: 24.4,
    period: 300,
    bursts: 4,
  }),
  "with a low carrier": benchCoil({
    frequency: 120e3,
    detuning: 0.98,
    coupling: 0.1,
    qualities: [80, 160],
    drive: 0.945,
    cycles: 14.3,
    period: 420,
    bursts: 2,
  }),
  "in the middle between poles that are far apart": benchCoil({
    frequency: 150e3,
    detuning: 0.94,
    coupling: 0.19,
    qualities: [150, 260],
    drive: 0.99,
    cycles: 18,
    period: 600,
    bursts: 2,
  }),
  "above the upper pole": benchCoil({
    frequency: 240e3,
    detuning: 1.02,
    coupling: 0.08,
    qualities: [70, 150],
    drive: 1.06,
    cycles: 30,
    period: 400,
    bursts: 2,
  }),
} satisfies Record<string, BenchCoil>;

const looks: Record<string, Look> = {
  "a quiet primary current": { channels: ["primaryCurrent"], noise: 0.002, fill: 0.9, trigger: 11, seed: 1 },
  "a noisy primary current, half of the screen": {
    channels: ["primaryCurrent"],
    noise: 0.006,
    fill: 0.5,
    trigger: 37,
    seed: 2,
  },
  "a primary current that clips": { channels: ["primaryCurrent"], noise: 0.003, fill: 1.15, trigger: 5, seed: 3 },
  "a primary current whose highest tops alone are clipped": {
    channels: ["primaryCurrent"],
    noise: 0.002,
    fill: 1.08,
    trigger: 8,
    seed: 7,
  },
  "a loop": { channels: ["pickupLoop"], noise: 0.004, fill: 0.85, trigger: 20, seed: 4 },
  "a loop and the primary current": {
    channels: ["pickupLoop", "primaryCurrent"],
    noise: 0.004,
    fill: 0.8,
    trigger: 0,
    seed: 5,
  },
  "a loop and the gate": { channels: ["pickupLoop", "gate"], noise: 0.004, fill: 0.8, trigger: 3, seed: 6 },
};

/** Coupling from both poles and the ratio in which tank and secondary are tuned: the coupled-circuit formula turned over. */
function couplingFrom(lower: number, upper: number, detuning: number): number {
  // s = f₂²/f₁² + 1 over both, from the sum and the product of the squares of the poles.
  const [sum, product] = [lower ** 2 + upper ** 2, lower ** 2 * upper ** 2];
  const ratio = (1 + detuning ** 2) ** 2 / detuning ** 2;
  return Math.sqrt(1 - (ratio * product) / sum ** 2);
}

describe.each(Object.entries(coils))("a coil driven %s", (_name, coil) => {
  let run: BenchRun;
  const truth = polesOfBench(coil);
  beforeAll(async () => {
    run = await runBench(coil, 1 / (coil.drive * 18.3));
  }, 60_000);

  it.each(Object.entries(looks))("is read from %s", (_look, look) => {
    const reading = readRecord(seenOnBench(run, look));
    expect(Math.abs(reading.carrier!.is.value / coil.drive - 1)).toBeLessThan(5e-4);
    expect(Math.abs(reading.onTime!.is.estimate.value - coil.onTime) * 2 * coil.drive).toBeLessThan(1);
    expect(Math.abs(reading.repetition!.is.rate.value * coil.period - 1)).toBeLessThan(1e-4);
    polesAgree(reading);
  });

  function polesAgree({ poles }: RecordReading) {
    const found = poles!.is.poles;
    const strongest = found.reduce((best, one) => (one.share > best.share ? one : best));
    for (const pole of found) {
      const near = truth.reduce((best, one) =>
        Math.abs(one.frequency - pole.frequency.value) < Math.abs(best.frequency - pole.frequency.value) ? one : best,
      );
      expect(Math.abs(pole.frequency.value / near.frequency - 1)).toBeLessThan(2e-3);
      if (pole === strongest)
        expect(Math.abs((pole.q.value * near.decay) / (Math.PI * near.frequency) - 1)).toBeLessThan(0.03);
    }
    if (found.length < 2) return;
    const detuning = Math.sqrt(
      (coil.secondary.inductance * coil.secondary.capacitance) / (coil.primary.inductance * coil.primary.capacitance),
    );
    const coupling = couplingFrom(found[0]!.frequency.value, found[1]!.frequency.value, detuning);
    expect(Math.abs(coupling / coil.coupling - 1)).toBeLessThan(0.02);
  }
});

// The truth is the simulated bridge's own commutations. Takes some eight seconds.
describe("a bridge that follows its own current", () => {
  const coil: BenchCoil = {
    ...benchCoil({
      frequency: 250e3,
      detuning: 0.95,
      coupling: 0.15,
      qualities: [60, 90],
      drive: 0.93,
      cycles: 16,
      period: 170,
      bursts: 1,
    }),
    follows: 120e-9,
  };
  let run: BenchRun;
  beforeAll(async () => {
    run = await runBench(coil, 1 / (coil.drive * 8.3));
  }, 60_000);
  const looked = { noise: 0.004, fill: 0.8, trigger: 3 };

  it.each([1, 2, 3])(
    "is known from its current better than from its own edges between two samples (noise %i)",
    (seed) => {
      const look: Look = { channels: ["primaryCurrent", "bridgeOutput"], ...looked, seed };
      const { carrier, onTime } = readRecord(seenOnBench(run, look));
      expect(onTime!.is.by).toBe("bridge");
      expect(carrier!.channel).toBe(0);
      expect(Math.abs(carrier!.is.value / run.carrier - 1)).toBeLessThan(5e-4);
    },
  );

  it.each([
    ["a loop and a gate", { channels: ["pickupLoop", "gate"], ...looked }],
    ["a loop that clips and a gate", { channels: ["pickupLoop", "gate"], ...looked, fill: 1.2 }],
    ["a loop alone", { channels: ["pickupLoop"], ...looked }],
  ] as const)("is known from %s, which shows neither bridge nor current", (_look, look) => {
    const errors = [1, 2, 3].map((seed) => {
      const { is } = readRecord(seenOnBench(run, { ...look, seed })).carrier!;
      return { off: Math.abs(is.value / run.carrier - 1), inside: is.low <= run.carrier && run.carrier <= is.high };
    });
    expect(Math.max(...errors.map(({ off }) => off))).toBeLessThan(5e-4);
    expect(errors.filter(({ inside }) => inside).length).toBeGreaterThanOrEqual(2);
  });
});
