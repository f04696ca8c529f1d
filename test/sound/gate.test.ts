import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gateOf, gateRates } from "../../src/sound/gate.ts";
import type { PulseTrain } from "../../src/sound/train.ts";
import { joined, single, steady } from "./trains.ts";

/** Runs of samples that are not 0: first sample and length. */
function runs(samples: Float32Array): { from: number; length: number; level: number }[] {
  const found: { from: number; length: number; level: number }[] = [];
  for (let i = 0; i < samples.length; i++) {
    const level = samples[i] ?? 0;
    if (level === 0) continue;
    const last = found[found.length - 1];
    if (last !== undefined && last.from + last.length === i) last.length++;
    else found.push({ from: i, length: 1, level });
  }
  return found;
}

const trains = fc
  .array(
    fc.record({
      gap: fc.double({ min: 20e-6, max: 0.02, noNaN: true }),
      on: fc.double({ min: 0, max: 1e-3, noNaN: true }),
    }),
    {
      minLength: 1,
      maxLength: 60,
    },
  )
  .map((parts): PulseTrain => {
    let at = 0;
    const start = parts.map(({ gap, on }) => {
      const begin = at + gap;
      at = begin + on;
      return begin;
    });
    return { start: Float64Array.from(start), onTime: Float64Array.from(parts.map(({ on }) => on)), duration: at };
  });

describe("gate pulses for a sound card", () => {
  // law: whatever the train, no pulse is longer or earlier than stated, and none is made up
  it("keep what is stated of them", () => {
    fc.assert(
      fc.property(trains, fc.constantFrom(...gateRates), (train, rate) => {
        const signal = gateOf(train, { rate });
        const samples = joined(signal.chunks());
        expect(samples.length).toBe(signal.frames);
        const found = runs(samples);
        const wanted = [...train.onTime].filter((on) => on > 0).length;
        expect(found.length).toBe(wanted - signal.error.lost);
        let index = 0;
        for (const { from, length } of found) {
          const near = (i: number) => Math.abs((train.start[i] ?? 0) - from / rate);
          while (
            index + 1 < train.start.length &&
            (near(index + 1) < near(index) || Math.floor((train.onTime[index] ?? 0) * rate + 1e-6) !== length)
          )
            index++;
          const on = train.onTime[index] ?? 0;
          expect(length / rate).toBeLessThanOrEqual(on + 1e-10);
          expect(on - length / rate).toBeLessThanOrEqual(signal.error.shortenedWorst + 1e-12);
          expect(near(index)).toBeLessThanOrEqual(signal.error.startWorst + 1e-12);
          expect(near(index)).toBeLessThanOrEqual(0.5 / rate + 1e-12);
          index++;
        }
        expect(signal.error.shortenedWorst - 2 * signal.error.baselineTime).toBeLessThan(1 / rate);
      }),
      { seed: 11, numRuns: 150 },
    );
  });

  // independent: the card's high-pass, run sample by sample
  it("state droop and baseline as a filter shows them", () => {
    const train = steady({ frequency: 400, onTime: 150e-6, duration: 1 });
    const [rate, corner] = [96_000, 20] as const;
    const { error, chunks } = gateOf(train, { rate, corner, height: 1 });
    const alpha = Math.exp((-2 * Math.PI * corner) / rate);
    let [baseline, droop, worst, before] = [0, 0, 0, 0];
    for (const value of joined(chunks())) {
      if (value > 0 && before === 0) droop = baseline;
      baseline = value + (baseline - value) * alpha;
      worst = Math.max(worst, baseline);
      before = value;
      if (value > 0) expect(baseline - droop).toBeLessThanOrEqual(error.droopWorst + 1e-6);
    }
    expect(error.baselineWorst).toBeCloseTo(worst, 6);
    expect(error.droopWorst).toBeCloseTo(1 - Math.exp(-2 * Math.PI * corner * (14 / rate)), 6);
    // law: in the long run the baseline is the duty, with a ripple of one pulse
    expect(Math.abs(error.baselineWorst - 400 * (14 / rate))).toBeLessThan(error.droopWorst);
  });

  // independent: the ideal converter's edge by its sum of sinc functions, solved for the crossing
  it("state the time that a shifted baseline costs", () => {
    const sinc = (x: number) => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
    const edge = (t: number) =>
      Array.from({ length: 4001 }, (_, n) => sinc(t - n)).reduce((sum, value) => sum + value, 0);
    for (const shift of [0.02, 0.1]) {
      let [low, high] = [-1, 0];
      for (let i = 0; i < 40; i++) {
        const middle = (low + high) / 2;
        if (edge(middle) < 0.5 + shift) low = middle;
        else high = middle;
      }
      // The middle of the edge is a little steeper than one sample, so what is stated is the upper bound.
      expect(low + 0.5).toBeLessThanOrEqual(shift);
      expect(low + 0.5).toBeGreaterThan(0.8 * shift);
    }
    const { error } = gateOf(steady({ frequency: 500, onTime: 200e-6, duration: 2 }), { rate: 48_000 });
    expect(error.baselineTime).toBeCloseTo(error.baselineWorst / 48_000, 15);
    expect(error.baselineWorst).toBeGreaterThan(0.08);
  });

  // law: rounding alone where the card passes direct voltage
  it("state rounding alone without a capacitor", () => {
    const train = {
      start: Float64Array.of(10.25 / 48_000, 100.5 / 48_000),
      onTime: Float64Array.of(3.75 / 48_000, 5 / 48_000),
      duration: 0.01,
    };
    const { error, chunks } = gateOf(train, { rate: 48_000, corner: 0 });
    expect(error).toMatchObject({ lost: 0, droopWorst: 0, baselineWorst: 0, baselineTime: 0 });
    expect(error.startWorst).toBeCloseTo(0.5 / 48_000, 12);
    expect(error.startMean).toBeCloseTo(Math.hypot(0.25, 0.5) / Math.SQRT2 / 48_000, 12);
    expect(error.shortenedWorst).toBeCloseTo(0.75 / 48_000, 12);
    expect(runs(joined(chunks())).map(({ from, length }) => [from, length])).toEqual([
      [10, 3],
      [101, 5],
    ]);
  });

  it("are off in silence, whichever way a pulse goes", () => {
    for (const [pulse, sign] of [
      ["positive", 1],
      ["negative", -1],
    ] as const) {
      const samples = joined(gateOf(single({ start: 0.01, onTime: 1e-3 }), { rate: 48_000, pulse }).chunks());
      expect(runs(samples)).toEqual([{ from: 480, length: 48, level: expect.closeTo(sign * 0.9, 6) }]);
      expect([samples[0], samples.at(-1)]).toEqual([0, 0]);
    }
  });

  it("go over the cut between two pieces whole", () => {
    const cut = 16_384;
    const samples = joined(
      gateOf(single({ start: (cut - 3) / 48_000, onTime: 8 / 48_000 }), { rate: 48_000 }).chunks(),
    );
    expect(runs(samples).map(({ from, length }) => [from, length])).toEqual([[cut - 3, 8]]);
  });

  it("count what a sound card cannot send", () => {
    const train = {
      start: Float64Array.of(0.01, 0.02, 0.020_213_4),
      onTime: Float64Array.of(10e-6, 208.4e-6, 200e-6),
      duration: 0.1,
    };
    expect(gateOf(train, { rate: 48_000 }).error.lost).toBe(2);
    expect(gateOf(train, { rate: 192_000 }).error.lost).toBe(0);
  });

  it("refuse settings that no card has", () => {
    const train = single({ start: 0, onTime: 1e-4 });
    expect(() => gateOf(train, { rate: 22_050 as 44_100 })).toThrow(/rate must be one of/);
    expect(() => gateOf(train, { rate: 48_000, height: 0 })).toThrow(/height/);
    expect(() => gateOf(train, { rate: 48_000, corner: -1 })).toThrow(/corner/);
  });
});
