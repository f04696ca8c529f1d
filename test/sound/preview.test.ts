import { describe, expect, it } from "vitest";
import { clickOf, usualSpark } from "../../src/sound/click.ts";
import { kernelOf } from "../../src/sound/kernel.ts";
import { previewOf } from "../../src/sound/preview.ts";
import { joined, lineIn, magnitude, single, spectrum, steady } from "./trains.ts";

const cents = (found: number, wanted: number): number => 1200 * Math.log2(found / wanted);

describe("the preview of a steady tone", () => {
  // published: ISO 16, A4 = 440 Hz, equal temperament; the line of a windowed transform of 2.7 s stands within 0.01 cent
  it.each([
    ["A4", 0],
    ["C4", -9],
    ["A2", -24],
    ["E5", 7],
    ["F#3", -15],
    ["C6", 15],
  ])("%s has its pitch within a cent", (_, semitones) => {
    const frequency = 440 * 2 ** (Number(semitones) / 12);
    for (const rate of [44_100, 48_000]) {
      const preview = previewOf(steady({ frequency, onTime: 100e-6, duration: 3 }), { rate });
      const bins = spectrum(joined(preview.chunks()), { from: 2000, size: 2 ** 17 });
      const found = lineIn(bins, { rate, low: frequency * 0.7, high: frequency * 1.4 });
      expect(Math.abs(cents(found, frequency))).toBeLessThan(0.1);
    }
  });

  // law: a train without jitter has lines at multiples of its frequency and nothing between them; clicks moved to the nearest sample
  // stand at −45 dB here
  it("has nothing between its harmonics", () => {
    const [rate, frequency] = [48_000, 441.7];
    const bins = spectrum(joined(previewOf(steady({ frequency, onTime: 100e-6, duration: 3 }), { rate }).chunks()), {
      from: 2000,
      size: 2 ** 17,
    });
    let [most, between] = [0, 0];
    for (let k = 10; k < 2 ** 16; k++) {
      const harmonic = (k * rate) / 2 ** 17 / frequency;
      const away = Math.abs(harmonic - Math.round(harmonic)) * frequency;
      if (away < 1) most = Math.max(most, magnitude(bins, k));
      else if (away > 10) between = Math.max(between, magnitude(bins, k));
    }
    expect(20 * Math.log10(between / most)).toBeLessThan(-75);
  });

  // law: the strength of each harmonic is that of two edges on-time apart, |2·sin(π·f·T)|, times the click's own smooth spectrum
  it("is silent where the on-time is a whole period", () => {
    const rate = 48_000;
    const bins = spectrum(
      joined(previewOf(steady({ frequency: 500, onTime: 100e-6, duration: 3 }), { rate }).chunks()),
      { from: 2000, size: 2 ** 17 },
    );
    const at = (frequency: number): number => magnitude(bins, Math.round((frequency / rate) * 2 ** 17));
    expect(at(10_000) / at(5000)).toBeLessThan(1e-3);
    expect(at(500) / at(5000)).toBeCloseTo(Math.sin(Math.PI * 0.05), 1);
  });
});

describe("one click", () => {
  const rate = 48_000;
  const of = (start: number, onTime = 200e-6) =>
    joined(previewOf(single({ start, onTime }), { rate, volume: 0.5 }).chunks());

  // law: a delay by d turns the phase by −2π·f·d and leaves the size; to 0.38 of the rate
  it("stands at a fraction of a sample as a delay would put it", () => {
    const still = spectrum(of(0.01), { from: 0, size: 4096, window: false });
    for (const d of [0.1, 0.25, 0.5, 0.777]) {
      const moved = spectrum(of(0.01 + d / rate), { from: 0, size: 4096, window: false });
      for (let k = 40; k < 0.38 * 4096; k += 13) {
        if (magnitude(still, k) < 0.02) continue;
        const size = magnitude(moved, k) / magnitude(still, k);
        const angle = (i: readonly number[]) => Math.atan2(i[2 * k + 1] ?? 0, i[2 * k] ?? 0);
        const turned = angle(moved) - angle(still) + (2 * Math.PI * k * d) / 4096;
        // The low-pass's ripple, 0.01 dB.
        expect(Math.abs(size - 1)).toBeLessThan(1.2e-3);
        expect(Math.abs(Math.atan2(Math.sin(turned), Math.cos(turned)))).toBeLessThan(2e-3);
      }
    }
  });

  it("begins after the stated delay", () => {
    const { delay, chunks } = previewOf(single({ start: 0.01, onTime: 500e-6 }), { rate });
    const samples = joined(chunks());
    const loudest = samples.indexOf(samples.reduce((most, value) => Math.max(most, value), 0));
    expect(loudest).toBe(Math.round((0.01 + delay) * rate));
  });

  it("pushes where the heating begins and pulls where it ends, as strongly", () => {
    const samples = of(0.01, 1e-3);
    const [most, least] = [Math.max(...samples), Math.min(...samples)];
    expect(most).toBeCloseTo(-least, 3);
    expect(samples.indexOf(least) - samples.indexOf(most)).toBe(48);
  });

  it("is as strong as its on-time is long", () => {
    const train = { start: Float64Array.of(0.01, 0.05), onTime: Float64Array.of(1e-3, 0.25e-3), duration: 0.1 };
    const samples = joined(previewOf(train, { rate, volume: 0.5 }).chunks());
    const peak = (from: number, to: number) => Math.max(...samples.subarray(from * rate, to * rate));
    expect(peak(0, 0.04) / peak(0.04, 0.1)).toBeCloseTo(4, 1);
  });
});

describe("samples", () => {
  const dense = () => {
    const starts = [440, 554.37, 659.25, 880, 1318.5].flatMap((f) =>
      Array.from({ length: Math.floor(10 * f) }, (_, i) => i / f),
    );
    return {
      start: Float64Array.from(starts).sort(),
      onTime: new Float64Array(starts.length).fill(150e-6),
      duration: 10,
    };
  };

  // law: push and pull are equal, so nothing is left at 0 Hz; what remains is the rounding to 32 bit
  it("have no direct part", () => {
    const samples = joined(previewOf(dense()).chunks());
    expect(Math.abs(samples.reduce((sum, value) => sum + value, 0) / samples.length)).toBeLessThan(1e-8);
  });

  it("begin low, and are never clipped", () => {
    const peak = (samples: Float32Array) => samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(peak(joined(previewOf(steady({ frequency: 100, onTime: 1e-4, duration: 1 })).chunks()))).toBeLessThanOrEqual(
      0.1001,
    );
    const loud = joined(previewOf(dense(), { volume: 1 }).chunks());
    expect(peak(loud)).toBeLessThan(1);
    expect(peak(loud)).toBeGreaterThan(0.8);
    expect(Math.abs(loud.reduce((sum, value) => sum + value, 0) / loud.length)).toBeLessThan(1e-3);
  });

  it("do not depend on where the pieces are cut, and none is lost at the ends", () => {
    const train = dense();
    const { frames, chunks } = previewOf(train);
    const pieces = [...chunks()];
    expect(pieces.reduce((sum, { length }) => sum + length, 0)).toBe(frames);
    const late = { ...train, start: train.start.map((time) => time + 1000 / 48_000) };
    const [here, there] = [joined(pieces), joined(previewOf(late).chunks())];
    for (let i = 0; i < here.length; i += 7)
      expect(Math.abs((here[i] ?? 0) - (there[i + 1000] ?? 0))).toBeLessThan(1e-6);
  });

  it("of no pulses are silence", () => {
    const none = { start: new Float64Array(0), onTime: new Float64Array(0), duration: 1 };
    expect(joined(previewOf(none).chunks()).every((value) => value === 0)).toBe(true);
    const dropped = { start: Float64Array.of(0.1), onTime: Float64Array.of(0), duration: 1 };
    expect(joined(previewOf(dropped).chunks()).every((value) => value === 0)).toBe(true);
  });

  // law: the memory in use does not grow with the song; 10 minutes at 48 kHz would be 115 MB if they were kept
  it("of a song of 10 minutes and 40,000 notes come in bounded memory", { timeout: 60_000 }, () => {
    const notes = 40_000;
    const starts: number[] = [];
    for (let note = 0; note < notes; note++) {
      const begin = (note * 600) / notes;
      const frequency = 110 * 2 ** (((note * 7) % 36) / 12);
      for (let k = 0; k / frequency < 0.06; k++) starts.push(begin + k / frequency);
    }
    const train = {
      start: Float64Array.from(starts).sort(),
      onTime: new Float64Array(starts.length).fill(80e-6),
      duration: 600,
    };
    const before = process.memoryUsage();
    let [frames, sum, most, heap] = [0, 0, 0, 0];
    const preview = previewOf(train);
    for (const piece of preview.chunks()) {
      frames += piece.length;
      for (const value of piece) {
        sum += value;
        most = Math.max(most, Math.abs(value));
      }
      const now = process.memoryUsage();
      heap = Math.max(heap, now.arrayBuffers + now.heapUsed - before.arrayBuffers - before.heapUsed);
    }
    expect(frames).toBe(preview.frames);
    expect(frames).toBeGreaterThan(600 * 48_000);
    expect(Math.abs(sum / frames)).toBeLessThan(1e-8);
    expect(most).toBeLessThan(1);
    expect(heap).toBeLessThan(60e6);
  });
});

describe("the click of a spark", () => {
  // law: f·T = 0.663 at the peak of |j₁(π·f·T)|, the spectrum of an N; found here by stepping through it
  it("lasts as long as an N whose spectrum peaks where the source says", () => {
    const j1 = (x: number) => Math.sin(x) / x ** 2 - Math.cos(x) / x;
    let best = 0.5;
    for (let ft = 0.5; ft < 0.8; ft += 1e-4) if (Math.abs(j1(Math.PI * ft)) > Math.abs(j1(Math.PI * best))) best = ft;
    const { pulse } = clickOf({ length: 1, energy: 1, distance: 100, pressure: 101_325 });
    const peak = 0.63 * 343 * Math.sqrt(101_325);
    expect(pulse * peak).toBeCloseTo(best, 3);
  });

  // law: four times the energy per length doubles the pulse; the spread is the difference of two ways
  it("scales as its formulas do", () => {
    const one = clickOf(usualSpark);
    expect(clickOf({ ...usualSpark, energy: 4 * usualSpark.energy }).pulse / one.pulse).toBeCloseTo(2, 12);
    expect(clickOf({ length: 6, energy: 1, distance: 4 }).spread).toBeCloseTo(1 / 343, 12);
    expect(one.width).toBeCloseTo(Math.hypot(one.pulse, one.spread), 15);
  });

  it("refuses what no spark is", () => {
    expect(() => clickOf({ ...usualSpark, energy: 0 })).toThrow(/energy must be positive/);
    expect(() => previewOf(single({ start: 0, onTime: 1e-4 }), { volume: 2 })).toThrow(/volume/);
    expect(() => previewOf(single({ start: 0, onTime: 1e-4 }), { rate: 100 })).toThrow(/rate/);
    const back = { start: Float64Array.of(1, 0.5), onTime: Float64Array.of(1e-4, 1e-4), duration: 2 };
    expect(() => previewOf(back)).toThrow(/pulse 1 must start after/);
  });
});

describe("kernelOf", () => {
  // law: every row is the same pulse, moved: its centre of mass is at lead + phase/phases
  it("moves its rows by their share of a sample", () => {
    for (const width of [0, 30e-6, 1e-3]) {
      const { taps, phases, table, lead } = kernelOf({ rate: 48_000, width });
      for (let phase = 0; phase <= phases; phase += 16) {
        let [sum, moment] = [0, 0];
        for (let tap = 0; tap < taps; tap++) {
          sum += table[phase * taps + tap] ?? 0;
          moment += tap * (table[phase * taps + tap] ?? 0);
        }
        expect(sum).toBeCloseTo(1, 12);
        expect(moment).toBeCloseTo(lead + phase / phases, 2);
      }
    }
  });
});
