/** Gate, bridge, sound and steady tones: channels that say more, or less, than a burst does. */
import { describe, expect, it } from "vitest";
import type { BenchRecord, ChannelRole } from "../../src/description/record.ts";
import { amperesPerUnit } from "../../src/description/record.ts";
import { readRecord } from "../../src/matching/record.ts";
import { randomRecord } from "./records.ts";
import { chance } from "./two-resonators.ts";

const made = randomRecord({ seed: 31, bursts: 4 });
const { record, truth, signals } = made;
const other = (name: string, role: ChannelRole, samples: Float64Array) => ({
  name,
  role,
  unit: "V",
  samples: Float32Array.from(samples),
});
const withChannels = (...channels: BenchRecord["channels"]): BenchRecord => ({
  ...record,
  channels: [...record.channels, ...channels],
});

describe("a gate", () => {
  const reading = readRecord(
    withChannels(
      other(
        "gate",
        "gate",
        signals.gate.map((value) => 5 * value),
      ),
    ),
  );

  it("decides the on-time; the rate is the signal's, whose starts are known better than to a sample", () => {
    // independent: the generator's own gate; an edge lies between two samples
    expect(reading.onTime?.is.by).toBe("gate");
    expect(reading.onTime?.channel).toBe(1);
    expect(Math.abs(reading.onTime!.is.estimate.value - truth.onTime)).toBeLessThan(record.interval);
    expect(reading.onTime!.is.estimate.low).toBeLessThan(truth.onTime);
    expect(reading.onTime!.is.estimate.high).toBeGreaterThan(truth.onTime);
    expect(reading.repetition?.channel).toBe(0);
    expect(Math.abs(reading.repetition!.is.rate.value / truth.rate - 1)).toBeLessThan(1e-5);
  });

  it("leaves poles and carrier to the other channel", () => {
    expect(reading.poles?.channel).toBe(0);
    expect(reading.carrier?.channel).toBe(0);
  });

  it("whose edges all meet the samples alike is still known to no more than a sample", () => {
    // law: by construction, a burst every 1000.3 samples, of which whole ones are seen
    const samples = Float32Array.from({ length: 3000 }, (_, i) =>
      [100, 1100, 2100].some((at) => i >= at && i < at + 50) ? 5 : 0,
    );
    const { repetition } = readRecord({
      name: "edges",
      start: 0,
      interval: 1e-6,
      length: samples.length,
      channels: [{ name: "gate", role: "gate", unit: "V", samples: samples }],
    });
    expect(repetition!.is.rate.low).toBeLessThan(1e6 / 1000.3);
    expect(repetition!.is.rate.high).toBeGreaterThan(1e6 / 1000.3);
  });

  it("may rise hundreds of thousands of times, evenly or not", () => {
    // law: by construction, ten samples from rise to rise but for one that comes late
    const samples = Float32Array.from({ length: 2_500_000 }, (_, i) => ((i < 1e6 ? i : i + 4) % 10 < 5 ? 0 : 5));
    const fast = readRecord({
      name: "fast",
      start: 0,
      interval: 1e-7,
      length: samples.length,
      channels: [{ name: "gate", role: "gate", unit: "V", samples }],
    });
    expect(fast.repetition?.is.bursts).toBeGreaterThan(249_000);
    expect(fast.repetition!.is.rate.value).toBeCloseTo(1e6, -1);
    expect(fast.onTime!.is.estimate.value).toBeCloseTo(5e-7, 9);
    expect(fast.findings.map(({ rule }) => rule)).toContain("record-repetition-uneven");
  });
});

describe("a bridge's output", () => {
  it("decides the on-time and the carrier", () => {
    // independent: the generator's own commutations
    const reading = readRecord(
      withChannels(
        other(
          "bridge",
          "bridgeOutput",
          signals.bridge.map((value) => 160 * value),
        ),
      ),
    );
    expect(reading.onTime?.is.by).toBe("bridge");
    expect(Math.abs(reading.onTime!.is.estimate.value - truth.onTime)).toBeLessThan(1.5 * record.interval);
    const commutations = signals.commutations[0]!;
    const rate = (commutations.length - 1) / (2 * (commutations.at(-1)! - commutations[0]!));
    expect(Math.abs(reading.carrier!.is.value / rate - 1)).toBeLessThan(2e-3);
    expect(reading.carrier!.is.low).toBeLessThan(rate);
    expect(reading.carrier!.is.high).toBeGreaterThan(rate);
  });
});

describe("a channel that is no gate", () => {
  it("is not taken for one", () => {
    const reading = readRecord(withChannels(other("gate", "gate", signals.secondaryVoltage)));
    expect(reading.onTime?.is.by).toBe("signal");
  });
});

describe("a sound", () => {
  const rate = 44_100;
  const clicks = (pitch: number, seed: number) => {
    const random = chance(seed);
    const samples = new Float32Array(2 * rate);
    for (let start = 0.01; start < 2; start += 1 / pitch)
      for (let n = Math.ceil(start * rate); n < samples.length && n / rate < start + 0.02; n++) {
        const t = n / rate - start;
        samples[n]! +=
          Math.exp(-t / 0.002) * Math.sin(2 * Math.PI * 3100 * t) +
          0.3 * Math.exp(-t / 0.005) * Math.sin(2 * Math.PI * 900 * t);
      }
    return samples.map((value) => 0.3 * value + 0.01 * random.normal());
  };

  it.each([97.3, 180, 440.5])("of sparks at %f Hz gives that rate", (pitch) => {
    // independent: clicks laid out one by one
    const samples = clicks(pitch, 5);
    const reading = readRecord({
      name: "",
      start: 0,
      interval: 1 / rate,
      length: samples.length,
      channels: [{ name: "left", role: "audio", unit: "1", samples }],
    });
    expect(Math.abs(reading.repetition!.is.rate.value / pitch - 1)).toBeLessThan(1e-4);
    expect(reading.onTime).toBeUndefined();
    expect(reading.findings).toEqual([]);
  });

  it("of noise gives none", () => {
    const random = chance(6);
    const samples = Float32Array.from({ length: rate }, () => 0.1 * random.normal());
    const reading = readRecord({
      name: "",
      start: 0,
      interval: 1 / rate,
      length: samples.length,
      channels: [{ name: "left", role: "audio", unit: "1", samples }],
    });
    expect(reading.repetition).toBeUndefined();
  });
});

describe("a steady signal", () => {
  const steady = (frequencies: readonly number[]) => {
    const random = chance(7);
    const samples = Float32Array.from({ length: 20_000 }, (_, n) =>
      frequencies.reduce(
        (sum, f, k) => sum + Math.sin(2 * Math.PI * f * n * 1e-7 + k) / (k + 1),
        0.01 * random.normal(),
      ),
    );
    return readRecord({
      name: "",
      start: 0,
      interval: 1e-7,
      length: samples.length,
      channels: [{ name: "loop", role: "pickupLoop", unit: "V", samples }],
    });
  };

  it("of one tone gives its frequency as the carrier", () => {
    // independent: the tone's own frequency; a bin of the transform would be 500 Hz wide
    const reading = steady([213_456]);
    expect(Math.abs(reading.carrier!.is.value - 213_456)).toBeLessThan(5);
    expect(reading.steady?.is).toHaveLength(1);
  });

  it("of two tones gives both", () => {
    const { steady: tones } = steady([201_000, 228_500]);
    expect(tones?.is.map(({ value }) => Math.round(value / 100))).toEqual([2010, 2285]);
  });
});

describe("the lines of the spectrum", () => {
  it("stand at multiples of the repetition rate, highest about the carrier", () => {
    const { lines, carrier, spectrum } = readRecord(record);
    const rate = readRecord(record).repetition!.is.rate.value;
    for (const { frequency } of lines)
      expect(Math.abs(frequency / rate - Math.round(frequency / rate))).toBeLessThan(1e-6);
    const best = lines.reduce((most, line) => (line.amplitude > most.amplitude ? line : most));
    expect(best.kind).toBe("carrier");
    const top = spectrum!.amplitude.reduce((most, value, bin) => (value > spectrum!.amplitude[most]! ? bin : most), 0);
    // The strongest bin is one of the poles or the drive between them.
    expect(Math.abs(spectrum!.frequency[top]! / carrier!.is.value - 1)).toBeLessThan(0.15);
  });

  it("are those of a train that can be summed by hand", () => {
    // law: bursts of one decaying tone, exp(−t/τ)·sin(ωt), have the lines (2/T)·ω/|(1/τ + iΩ)² + ω²|
    const [tau, f, T, interval] = [4e-5, 2e5, 1e-3, 1e-7];
    const samples = Float32Array.from({ length: 40_000 }, (_, n) => {
      const t = ((n * interval + 0.7e-3) % T) - 0.2e-3;
      return t < 0 ? 0 : Math.exp(-t / tau) * Math.sin(2 * Math.PI * f * t);
    });
    const { lines } = readRecord({
      name: "",
      start: 0,
      interval,
      length: samples.length,
      channels: [{ name: "loop", role: "pickupLoop", unit: "V", samples }],
    });
    const near = lines.find(({ kind, number }) => kind === "carrier" && number === 2)!;
    const [w, W] = [2 * Math.PI * f, 2 * Math.PI * near.frequency];
    const expected = ((2 / T) * w) / Math.hypot(1 / tau ** 2 - W * W + w * w, (2 * W) / tau);
    expect(Math.abs(near.amplitude / expected - 1)).toBeLessThan(0.03);
  });
});

describe("a current transformer", () => {
  it("turns volts at its burden into amperes", () => {
    // law: I = V·ratio/burden
    expect(amperesPerUnit({ unit: "V", transducer: { ratio: 1000, burden: 5.1 } })).toBeCloseTo(1000 / 5.1, 9);
    expect(amperesPerUnit({ unit: "A" })).toBe(1);
    expect(amperesPerUnit({ unit: "V" })).toBeUndefined();
  });
});
