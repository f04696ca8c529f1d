import { describe, expect, it } from "vitest";
import { sweepTones } from "../../../src/matching/fit/sweep.ts";
import {
  type CaptureSettings,
  frequencyColumn,
  readCapture,
  sweepFindings,
  sweepOf,
  sweepSettings,
} from "../../../src/readers/capture.ts";
import { chance } from "../two-resonators.ts";

/** Current of the primary of a coupled pair with a generator in its loop, by complex impedances: no sum of resonance curves. */
function pairSweep({ noise, seed, coupling }: { noise: number; seed: number; coupling: number }) {
  const random = chance(seed);
  const [f1, f2, q1, q2] = [198e3, 214e3, 90, 240];
  const frequency = Float64Array.from({ length: 281 }, (_, n) => 160e3 + n * 320);
  const amplitude = frequency.map((f) => {
    const z = (f0: number, q: number) => ({ re: f0 / q, im: f - (f0 * f0) / f });
    const [a, b] = [z(f1, q1), z(f2, q2)];
    const m = coupling * f;
    const size = b.re ** 2 + b.im ** 2;
    const total = { re: a.re + (m * m * b.re) / size, im: a.im - (m * m * b.im) / size };
    return 1e4 / Math.hypot(total.re, total.im) + noise * random.normal();
  });
  return { frequency, amplitude };
}

/** The same without noise, at one frequency, as the secondary shows it. */
function pairAt(f: number, coupling: number): number {
  const z = (f0: number, q: number) => ({ re: f0 / q, im: f - (f0 * f0) / f });
  const [a, b] = [z(198e3, 90), z(214e3, 240)];
  const m = coupling * f;
  const re = a.re * b.re - a.im * b.im + m * m;
  const im = a.re * b.im + a.im * b.re;
  return m / Math.hypot(re, im);
}

describe("sweepOf", () => {
  // independent: the same two resonances in each dialect, amplitudes of `pairAt`
  const points = Array.from({ length: 201 }, (_, n) => 160e3 + n * 400);
  const decibels = (f: number) => 20 * Math.log10(pairAt(f, 0.16) * 1e3) - 60;
  const dialects = {
    linear: ["Frequency (Hz),Amplitude (V)", (f: number) => `${f},${pairAt(f, 0.16).toPrecision(5)}`],
    "decibels and phase": [
      "Frequency (Hz),Gain (dB),Phase (deg)",
      (f: number) => `${f},${decibels(f).toFixed(2)},${(-f / 2e3).toFixed(1)}`,
    ],
    "decimal commas": [
      "f [kHz];Level [dBV]",
      (f: number) => `${f / 1e3};${decibels(f).toFixed(2)}`.replaceAll(".", ","),
    ],
    "the generator's channel first": [
      "Frequency in Hz,Channel 1 Magnitude (dB),Channel 2 Magnitude (dB),Channel 2 Phase (deg)",
      (f: number) => `${f},0.00,${decibels(f).toFixed(2)},12.0`,
    ],
  } as const;
  for (const [name, [head, row]] of Object.entries(dialects)) {
    it(`reads a sweep of ${name}`, () => {
      const bytes = new TextEncoder().encode(`${head}\n${points.map(row).join("\n")}\n`);
      const first = readCapture(bytes);
      const column = frequencyColumn(first.dialect)!;
      const read = readCapture(bytes, sweepSettings({}, first.dialect!, column));
      const sweep = sweepOf(read.record!, first.dialect!.columns[column]!.name)!;
      const [lower, upper] = sweepTones(sweep);
      expect(Math.abs(lower!.frequency.value / 190.4e3 - 1)).toBeLessThan(0.02);
      expect(upper!.frequency.value).toBeGreaterThan(1.1 * lower!.frequency.value);
      const [plain] = sweepTones({
        frequency: Float64Array.from(points),
        amplitude: points.map((f) => pairAt(f, 0.16)),
      });
      expect(Math.abs(lower!.frequency.value / plain!.frequency.value - 1)).toBeLessThan(1e-4);
    });
  }
});

describe("two columns without names", () => {
  const bytesOf = (rows: readonly string[]) => new TextEncoder().encode(`${rows.join("\n")}\n`);
  const looked = (rows: readonly string[], settings: CaptureSettings = {}) => {
    const bytes = bytesOf(rows);
    const first = readCapture(bytes, settings);
    const column = frequencyColumn(first.dialect);
    if (column === undefined) return { ...first, sweep: undefined };
    const again = readCapture(bytes, sweepSettings(settings, first.dialect!, column));
    return {
      ...first,
      findings: sweepFindings(first.findings),
      sweep: again.record && sweepOf(again.record, first.dialect!.columns[column]!.name),
    };
  };
  const even = Array.from({ length: 401 }, (_, n) => 160e3 + n * 200);
  const byRatio = Array.from({ length: 1201 }, (_, n) => 1e3 * 10 ** (n / 400));

  // law: by construction, the same two resonances at the same frequencies
  it.each([
    ["in equal steps", even, (f: number) => `${f},${pairAt(f, 0.16).toPrecision(5)}`],
    ["in equal ratios", byRatio, (f: number) => `${f.toPrecision(6)}\t${pairAt(f, 0.16).toExponential(4)}`],
    ["in decibels", even, (f: number) => `${f};${(20 * Math.log10(pairAt(f, 0.16)) - 60).toFixed(2)}`],
  ] as const)("are a sweep where the first rises %s from far above zero", (_, points, row) => {
    const { sweep, findings, dialect } = looked(points.map(row));
    const [lower, upper] = sweepTones(sweep!);
    expect(Math.abs(lower!.frequency.value / 190.4e3 - 1)).toBeLessThan(0.02);
    expect(upper!.frequency.value).toBeGreaterThan(1.1 * lower!.frequency.value);
    expect(findings.map(({ rule }) => rule)).toEqual(["capture-frequency-guessed"]);
    expect(dialect?.reasons.find(({ part }) => part === "time")?.because).toMatch(/taken for a frequency/);
  });

  it("are what a person says they are", () => {
    const rows = even.map((f) => `${f / 1e3},${pairAt(f, 0.16).toPrecision(5)}`);
    expect(looked(rows).sweep).toBeUndefined();
    const inKilohertz = looked(rows, { columns: { 0: { unit: "kHz" } } });
    expect(inKilohertz.sweep?.frequency[0]).toBe(160e3);
    expect(inKilohertz.findings).toEqual([]);
    const inHertz = even.map((f) => `${f},${pairAt(f, 0.16).toPrecision(5)}`);
    const asTime = looked(inHertz, { columns: { 0: { use: "time", unit: "ns" } } });
    expect(asTime.sweep).toBeUndefined();
    expect(asTime.record?.interval).toBeCloseTo(200e-9, 15);
  });

  const swings = (n: number) => Math.sin(n / 3).toFixed(4);
  it.each([
    ["begins at zero", even.map((_, n) => `${n * 200},${pairAt(200e3 + n, 0.16)}`)],
    ["begins a step or two above zero", even.map((_, n) => `${(n + 2) * 1000},1.5`)],
    ["is small", even.map((_, n) => `${(n * 1e-7).toExponential(3)},1.5`)],
    ["stands beside one that swings", even.map((f, n) => `${f},${swings(n)}`)],
    ["falls", even.map((f) => `${320e3 - f},1.5`)],
    ["keeps no grid", even.map((f, n) => `${f + (n % 7) * 1e3 + n ** 3},1.5`)],
    ["is one of a few rows", even.slice(0, 6).map((f) => `${f},1.5`)],
    ["has a name", ["Time,V", ...even.map((f) => `${f},1.5`)]],
    ["stands beside two others", even.map((f) => `${f},1.5,1.6`)],
  ] as const)("are no sweep where the first %s", (_, rows) => {
    expect(looked(rows).sweep).toBeUndefined();
    expect(looked(rows).findings.map(({ rule }) => rule)).not.toContain("capture-frequency-guessed");
  });
});

describe("sweepTones", () => {
  it("finds both poles of a coupled pair driven by a generator", () => {
    const coupling = 0.16;
    for (const seed of [1, 2, 3]) {
      const [lower, upper, ...more] = sweepTones(pairSweep({ noise: 0.02, seed, coupling }));
      expect(more).toEqual([]);
      // independent: ω² of two lossless loops, closed form; 0.2 % is the width of a tenth of a line
      const [a, b, k] = [198e3 ** 2, 214e3 ** 2, coupling ** 2];
      const root = Math.sqrt((a - b) ** 2 + 4 * k * a * b);
      expect(Math.abs(lower!.frequency.value / Math.sqrt((a + b - root) / (2 * (1 - k))) - 1)).toBeLessThan(2e-3);
      expect(Math.abs(upper!.frequency.value / Math.sqrt((a + b + root) / (2 * (1 - k))) - 1)).toBeLessThan(2e-3);
    }
  });

  it("finds one resonance with its Q where the coupling is none, in any order of the points", () => {
    const { frequency, amplitude } = pairSweep({ noise: 0.003, seed: 4, coupling: 0 });
    const [only, ...more] = sweepTones({ frequency: frequency.toReversed(), amplitude: amplitude.toReversed() });
    expect(more).toEqual([]);
    expect(Math.abs(only!.frequency.value / 198e3 - 1)).toBeLessThan(5e-4);
    expect(Math.abs(only!.q!.value / 90 - 1)).toBeLessThan(0.03);
  });

  it("finds both poles to a part in ten thousand with log spacing, few points, or a generator whose level slopes", () => {
    const coupling = 0.16;
    const at = (f: number) => pairAt(f, coupling);
    const [a, b, k] = [198e3 ** 2, 214e3 ** 2, coupling ** 2];
    const root = Math.sqrt((a - b) ** 2 + 4 * k * a * b);
    const poles = [-1, 1].map((sign) => Math.sqrt((a + b + sign * root) / (2 * (1 - k))));
    const sweeps: Record<string, { frequency: Float64Array; level: (f: number) => number }> = {
      log: { frequency: Float64Array.from({ length: 240 }, (_, n) => 120e3 * 3 ** (n / 239)), level: () => 1 },
      few: { frequency: Float64Array.from({ length: 36 }, (_, n) => 165e3 + n * 2300), level: () => 1 },
      slope: {
        frequency: Float64Array.from({ length: 200 }, (_, n) => 160e3 + n * 450),
        level: (f) => (2e5 / f) ** 1.5,
      },
    };
    for (const [name, { frequency, level }] of Object.entries(sweeps)) {
      const tones = sweepTones({ frequency, amplitude: frequency.map((f) => level(f) * at(f)) });
      // independent: ω² of two lossless loops, closed form; loss moves a pole by 1/(8Q²), 2e-5 here
      tones.forEach(({ frequency: { value } }, n) => {
        expect(Math.abs(value / poles[n]! - 1), name).toBeLessThan(1.5e-4);
      });
      expect(tones.length, name).toBe(2);
    }
  });

  it("finds nothing where no peak stands inside the sweep", () => {
    const frequency = Float64Array.from({ length: 50 }, (_, n) => 1e5 + n * 1e3);
    expect(sweepTones({ frequency, amplitude: frequency.map((f) => f / 1e5) })).toEqual([]);
    expect(sweepTones({ frequency: frequency.subarray(0, 3), amplitude: Float64Array.of(1, 2, 1) })).toEqual([]);
  });
});

// independent: one resonance by its own formula, and none
describe("a sweep with much noise", () => {
  const frequency = Float64Array.from({ length: 200 }, (_, n) => 240e3 + n * 600);
  const shape = (f: number) => 1 / Math.hypot(1, 100 * (f / 300e3 - 300e3 / f));

  it.each([1, 2, 3, 4])("has one peak where there is one, for all the spikes beside it (noise %i)", (seed) => {
    const random = chance(seed);
    const tones = sweepTones({ frequency, amplitude: frequency.map((f) => shape(f) + 0.05 * random.normal()) });
    expect(tones).toHaveLength(1);
    expect(Math.abs(tones[0]!.frequency.value / 300e3 - 1)).toBeLessThan(1e-3);
    expect(tones[0]!.frequency.error).toBeLessThan(200);
    expect(Math.abs(tones[0]!.q!.value / 100 - 1)).toBeLessThan(0.15);
  });

  it.each([1, 2, 3, 4])("has none where there is none (noise %i)", (seed) => {
    const random = chance(seed);
    expect(sweepTones({ frequency, amplitude: frequency.map((f) => f / 1e6 + 0.01 * random.normal()) })).toEqual([]);
  });
});
