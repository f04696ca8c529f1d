import { describe, expect, it } from "vitest";
import { sweepTones } from "../../../src/matching/fit/sweep.ts";
import { frequencyColumn, readCapture, sweepOf } from "../../../src/readers/capture.ts";
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
      const read = readCapture(bytes, { columns: { [column]: { use: "channel" } }, interval: 1 });
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
