/** What is wrong with a record is found and said; what can still be read is read. */
import { describe, expect, it } from "vitest";
import type { BenchRecord, Channel } from "../../src/description/record.ts";
import { readRecord } from "../../src/matching/record.ts";
import { randomRecord } from "./records.ts";
import { chance } from "./two-resonators.ts";

const made = randomRecord({ seed: 21, bursts: 3, noise: 0.004 });
const { record, truth } = made;
const [channel] = record.channels as readonly [Channel];
const withSamples = (samples: Float32Array, parts: Partial<BenchRecord> = {}): BenchRecord => ({
  ...record,
  ...parts,
  length: samples.length,
  channels: [{ ...channel, samples }],
});
const rulesOf = (one: BenchRecord) => readRecord(one).findings.map(({ rule }) => rule);
const cutRecord = (from: number, to: number) => withSamples(channel.samples.slice(from, to));
const sampleOf = (time: number) => Math.round(time / record.interval);

describe("a sound record", () => {
  it("has no findings", () => {
    expect(rulesOf(record)).toEqual([]);
  });
});

describe("clipping", () => {
  const clipped = randomRecord({ seed: 21, bursts: 3, noise: 0.004, range: 0.6, offset: 0 });

  it("is said, and frequencies and decay are read from what is left", () => {
    const reading = readRecord(clipped.record);
    expect(reading.findings.map(({ rule }) => rule)).toContain("record-clipped");
    expect(reading.findings.find(({ rule }) => rule === "record-clipped")?.what).toMatch(/clipped: \d+ of \d+ samples/);
    for (const [k, pole] of reading.poles!.is.poles.entries())
      expect(Math.abs(pole.frequency.value / clipped.truth.poles[k]!.frequency - 1)).toBeLessThan(0.002);
    expect(Math.abs(reading.repetition!.is.rate.value / truth.rate - 1)).toBeLessThan(1e-4);
  });

  it("is seen where the instrument marks it", () => {
    const marked = channel.samples.map((value) =>
      value > 0.7 ? Number.POSITIVE_INFINITY : value < -0.7 ? Number.NEGATIVE_INFINITY : value,
    );
    const reading = readRecord(withSamples(marked));
    expect(reading.findings.map(({ rule }) => rule)).toContain("record-over-range");
    expect(reading.poles?.is.poles.length).toBeGreaterThan(0);
  });

  it("is not claimed of a swing that fills the screen", () => {
    expect(rulesOf(randomRecord({ seed: 22, bits: 8, offset: 0, range: 1.03 }).record)).not.toContain("record-clipped");
  });
});

describe("sampling", () => {
  const every = (n: number) =>
    withSamples(
      channel.samples.filter((_, i) => i % n === 0),
      { interval: record.interval * n },
    );

  it("near half the rate is said", () => {
    const perCycle = 1 / truth.frequency / record.interval;
    expect(rulesOf(every(Math.round(perCycle / 2.5)))).toContain("record-sampled-too-slowly");
  });

  it("too slow to tell a folded carrier is said, with what it may be", () => {
    const perCycle = 1 / truth.frequency / record.interval;
    const step = Math.round(perCycle * 1.35);
    const finding = readRecord(every(step)).findings.find(({ rule }) => rule === "record-carrier-may-be-folded");
    expect(finding?.what).toMatch(/would look like/);
    // law: one of the images named lies at the true carrier
    const rate = 1 / (record.interval * step);
    const images = [1, 2].flatMap((k) => [k * rate - truth.frequency, truth.frequency - k * rate]);
    expect(images.some((image) => image > 0 && image < rate / 2)).toBe(true);
  });

  it("shows a harmonic folded back", () => {
    // law: 3·f above half the rate stands at rate − 3·f
    const rate = 1e6;
    const samples = Float32Array.from({ length: 20_000 }, (_, n) => {
      const t = (n % 5000) / rate - 4e-4;
      const swing = t < 0 ? 0 : Math.exp(-t / 4e-4);
      return (
        swing * (Math.sin(2 * Math.PI * 213e3 * t) + 0.1 * Math.sin(2 * Math.PI * 3 * 213e3 * t)) +
        0.002 * Math.sin(n * n)
      );
    });
    const findings = readRecord(withSamples(samples, { interval: 1 / rate })).findings;
    expect(findings.find(({ rule }) => rule === "record-folded-line")?.what).toMatch(/36[01]\.?\d* kHz.*harmonic 3/);
  });
});

describe("the vertical scale", () => {
  it("that wastes the converter is said", () => {
    const coarse = channel.samples.map((value) => Math.round(value * 12) / 12);
    const finding = readRecord(withSamples(coarse)).findings.find(({ rule }) => rule === "record-coarse");
    expect(finding?.what).toMatch(/spans 2\d levels/);
  });

  it("that puts the quiet level far off is said, and taken away", () => {
    const lifted = readRecord(withSamples(channel.samples.map((value) => value + 3)));
    expect(lifted.findings.map(({ rule }) => rule)).toContain("record-offset");
    const here = readRecord(record).poles!.is.poles[0]!.frequency.value;
    expect(Math.abs(lifted.poles!.is.poles[0]!.frequency.value / here - 1)).toBeLessThan(1e-4);
  });

  it("that drifts is said", () => {
    const drifting = channel.samples.map((value, i) => value + (0.5 * i) / record.length);
    const reading = readRecord(withSamples(drifting));
    expect(reading.findings.map(({ rule }) => rule)).toContain("record-drift");
    expect(Math.abs(reading.repetition!.is.rate.value / truth.rate - 1)).toBeLessThan(1e-4);
  });
});

describe("a record cut short", () => {
  const [first, second] = made.starts as readonly [number, number];

  it("inside its first burst is said, and that burst is not counted on", () => {
    const reading = readRecord(cutRecord(sampleOf(first + truth.onTime / 2), record.length));
    expect(reading.findings.map(({ rule }) => rule)).toContain("record-cuts-burst");
    expect(reading.bursts[0]!.cutAtStart).toBe(true);
    expect(Math.abs(reading.onTime!.is.estimate.value - truth.onTime) * 2 * truth.frequency).toBeLessThan(1);
  });

  it("to one burst says nothing of the rate", () => {
    const reading = readRecord(cutRecord(0, sampleOf(second - 20 / truth.frequency)));
    expect(reading.repetition).toBeUndefined();
    expect(reading.findings.map(({ rule }) => rule)).toEqual(["record-one-burst"]);
  });

  it("before the drive ends shows no decay", () => {
    const reading = readRecord(cutRecord(0, sampleOf(first + truth.onTime * 0.7)));
    expect(reading.poles).toBeUndefined();
    expect(reading.findings.map(({ rule }) => rule)).toContain("record-without-decay");
  });

  it("before the drive ends shows no decay, whatever the coil and the channel", () => {
    for (let seed = 1; seed <= 12; seed++) {
      for (const shown of ["primaryCurrent", "pickupLoop"] as const) {
        const { record: whole, starts, truth: is } = randomRecord({ seed, noise: 0.004, channel: shown });
        const length = Math.round((starts[0]! - whole.start + 0.9 * is.onTime) / whole.interval);
        const channels = whole.channels.map((each) => ({ ...each, samples: each.samples.subarray(0, length) }));
        expect(readRecord({ ...whole, length, channels }).poles, `${seed} ${shown}`).toBeUndefined();
      }
    }
  });

  it("long before the decay has sunk still shows its line", () => {
    // law: one damped tone; it falls to half of its peak where the record ends
    const [line, q, step] = [86e3, 400, 200e-9];
    const random = chance(9);
    const samples = Float32Array.from({ length: 5600 }, (_, n) => {
      const t = (n - 400) * step;
      const size =
        t < 0 ? 0 : Math.min(1, (t * line) / 4) * Math.exp((-Math.PI * line * Math.max(0, t - 5 / line)) / q);
      return size * Math.sin(2 * Math.PI * line * t) + 0.004 * random.normal();
    });
    const { poles } = readRecord(withSamples(samples, { interval: step }));
    expect(poles?.is.poles).toHaveLength(1);
    expect(Math.abs(poles!.is.poles[0]!.frequency.value / line - 1)).toBeLessThan(1e-5);
    expect(Math.abs(poles!.is.poles[0]!.q.value / q - 1)).toBeLessThan(0.02);
  });

  it("to nothing at all is said", () => {
    const random = chance(4);
    const noise = Float32Array.from({ length: 4000 }, () => 0.01 * random.normal());
    expect(rulesOf(withSamples(noise))).toEqual(["record-without-signal"]);
    expect(rulesOf(withSamples(new Float32Array(4000)))).toEqual(["record-without-signal"]);
    expect(rulesOf(withSamples(new Float32Array(3)))).toEqual(["record-without-signal"]);
    expect(rulesOf(withSamples(new Float32Array(4000).fill(Number.NaN)))).toEqual(["record-without-signal"]);
  });
});

describe("gaps", () => {
  it("are said and left out", () => {
    const holed = channel.samples.map((value, i) => (i % 97 === 0 ? Number.NaN : value));
    const reading = readRecord(withSamples(holed));
    expect(reading.findings.map(({ rule }) => rule)).toContain("record-gaps");
    for (const [k, pole] of reading.poles!.is.poles.entries())
      expect(Math.abs(pole.frequency.value / truth.poles[k]!.frequency - 1)).toBeLessThan(0.002);
  });
});

describe("bursts that do not come evenly", () => {
  it("are said", () => {
    const length = Math.round(record.length / 3);
    const one = channel.samples.slice(0, length);
    const gap = channel.samples.slice(0, 60);
    const samples = Float32Array.from([
      ...one,
      ...one,
      ...Array.from({ length: 12 }, () => [...gap]).flat(),
      ...one,
      ...one,
    ]);
    expect(rulesOf(withSamples(samples))).toContain("record-repetition-uneven");
  });
});

describe("a decay under a streamer", () => {
  it("is said to be no exponential", () => {
    // loss that grows with the voltage: a decay along 1/(1 + t/τ)
    const random = chance(8);
    const samples = Float32Array.from({ length: 30_000 }, (_, n) => {
      const t = n - 1000;
      return (t < 0 ? 0 : Math.sin(0.31 * t) / (1 + t / 60)) + 0.002 * random.normal();
    });
    const loop = { ...channel, role: "pickupLoop" as const, samples };
    expect(rulesOf({ ...record, interval: 2e-7, length: samples.length, channels: [loop] })).toContain(
      "record-decay-not-exponential",
    );
  });
});
