/** Reading records whose truth is known. Every truth here is the generator's own (test/matching/two-resonators.ts): an independent witness. */
import { describe, expect, it } from "vitest";
import { readRecord } from "../../src/matching/record.ts";
import { type Made, quantile, randomRecord } from "./records.ts";

const seeds = (count: number, from: number) => Array.from({ length: count }, (_, i) => from + i);
const read = (made: Made) => ({ ...made, reading: readRecord(made.record) });

describe("a record of the primary's current", () => {
  const records = seeds(30, 1).map((seed) => read(randomRecord({ seed, bursts: 2 })));
  const errors = (error: (one: (typeof records)[number]) => number | undefined) =>
    records.flatMap((one) => error(one) ?? []).map(Math.abs);

  it("gives the repetition rate to 0.01 %", () => {
    const found = errors(
      ({ reading, truth }) => reading.repetition && reading.repetition.is.rate.value / truth.rate - 1,
    );
    expect(found).toHaveLength(30);
    expect(Math.max(...found)).toBeLessThan(1e-4);
  });

  it("gives both poles to 0.2 %, the quality of the stronger to 3 %, and the beat", () => {
    const two = records.filter(({ reading }) => reading.poles?.is.poles.length === 2);
    // A second pole that holds a thousandth of the energy may stay below the noise.
    expect(two.length).toBeGreaterThanOrEqual(27);
    for (const { reading, truth } of two) {
      const { poles, beat } = reading.poles!.is;
      for (const [k, pole] of poles.entries())
        expect(Math.abs(pole.frequency.value / truth.poles[k]!.frequency - 1)).toBeLessThan(0.002);
      const strongest = poles[0]!.share > poles[1]!.share ? 0 : 1;
      expect(Math.abs(poles[strongest]!.q.value / truth.poles[strongest]!.q - 1)).toBeLessThan(0.03);
      expect(Math.abs(poles[strongest]!.decayTime.value / truth.poles[strongest]!.decayTime - 1)).toBeLessThan(0.03);
      expect(Math.abs(beat!.value / (truth.poles[1]!.frequency - truth.poles[0]!.frequency) - 1)).toBeLessThan(0.01);
    }
  });

  it("gives the on-time to a half-cycle", () => {
    const found = errors(
      ({ reading, truth }) => reading.onTime && (reading.onTime.is.estimate.value - truth.onTime) * 2 * truth.frequency,
    );
    expect(found).toHaveLength(30);
    expect(quantile(found, 0.9)).toBeLessThan(0.6);
    expect(Math.max(...found)).toBeLessThan(1.5);
  });

  it("gives the carrier to 0.05 %, the mean frequency at which the bridge commutates", () => {
    const found = errors(({ reading, truth }) => reading.carrier && reading.carrier.is.value / truth.carrier - 1);
    expect(found).toHaveLength(30);
    // A bridge that follows its own current through a null of the envelope leaves the place of single commutations open.
    expect(quantile(found, 0.9)).toBeLessThan(5e-4);
    expect(Math.max(...found)).toBeLessThan(1e-3);
  });

  it("finds every burst, whole", () => {
    for (const { reading, starts, truth } of records) {
      expect(reading.bursts).toHaveLength(2);
      for (const [k, burst] of reading.bursts.entries()) {
        expect(Math.abs(burst.start - starts[k]!) * truth.frequency).toBeLessThan(2);
        expect(burst.cutAtStart || burst.cutAtEnd).toBe(false);
      }
    }
  });
});

describe("a record of a pickup", () => {
  it("gives poles as well, and the on-time to a cycle or two", { timeout: 60_000 }, () => {
    const records = seeds(16, 100).map((seed) => read(randomRecord({ seed, channel: "pickupLoop", bursts: 1 })));
    const two = records.filter(({ reading }) => reading.poles?.is.poles.length === 2);
    expect(two.length).toBeGreaterThanOrEqual(14);
    for (const { reading, truth } of two)
      for (const [k, pole] of reading.poles!.is.poles.entries())
        expect(Math.abs(pole.frequency.value / truth.poles[k]!.frequency - 1)).toBeLessThan(0.002);
    const late = two.map(
      ({ reading, truth }) => Math.abs(reading.onTime!.is.estimate.value - truth.onTime) * 2 * truth.frequency,
    );
    expect(quantile(late, 0.5)).toBeLessThan(1);
    expect(quantile(late, 0.9)).toBeLessThan(3);
  });
});

describe("a single resonator", () => {
  it("is not given a second pole", { timeout: 60_000 }, () => {
    for (const seed of seeds(16, 200)) {
      const { reading, truth } = read(randomRecord({ seed, single: true }));
      expect(reading.poles?.is.poles).toHaveLength(1);
      expect(reading.poles!.is.beat).toBeUndefined();
      const [pole] = reading.poles!.is.poles;
      expect(Math.abs(pole!.frequency.value / truth.poles[0]!.frequency - 1)).toBeLessThan(2e-4);
      expect(Math.abs(pole!.q.value / truth.poles[0]!.q - 1)).toBeLessThan(0.03);
    }
  });

  it("runs at one frequency, and its carrier is read to 0.05 %", { timeout: 60_000 }, () => {
    for (const seed of seeds(16, 200)) {
      const { reading, truth } = read(randomRecord({ seed, single: true, noise: 0.006 }));
      expect(Math.abs(reading.carrier!.is.value / truth.carrier - 1)).toBeLessThan(5e-4);
    }
  });
});

describe("where the record begins", () => {
  it("moves the starts and nothing else", () => {
    // law: the trigger's place is no part of the signal
    const here = read(randomRecord({ seed: 5, bursts: 2 }));
    const later = { ...here.record, start: 0.25 };
    const there = readRecord(later);
    expect(there.repetition).toEqual(here.reading.repetition);
    expect(there.poles?.is.poles).toEqual(here.reading.poles?.is.poles);
    expect(there.bursts[0]!.start - here.reading.bursts[0]!.start).toBeCloseTo(0.25, 12);
  });
});

describe("the unit of a channel", () => {
  it("scales peaks and changes no time", () => {
    // law: reading is linear in the signal
    const { record, reading } = read(randomRecord({ seed: 9 }));
    const [channel] = record.channels;
    const scaled = readRecord({
      ...record,
      channels: [{ ...channel!, samples: channel!.samples.map((value) => 64 * value) }],
    });
    expect(scaled.bursts[0]!.peak / reading.bursts[0]!.peak).toBeCloseTo(64, 4);
    expect(scaled.poles!.is.poles[0]!.frequency.value / reading.poles!.is.poles[0]!.frequency.value).toBeCloseTo(1, 9);
  });
});
