import { describe, expect, it } from "vitest";
import { sweepTones } from "../../../src/matching/fit/sweep.ts";
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

  it("finds nothing where no peak stands inside the sweep", () => {
    const frequency = Float64Array.from({ length: 50 }, (_, n) => 1e5 + n * 1e3);
    expect(sweepTones({ frequency, amplitude: frequency.map((f) => f / 1e5) })).toEqual([]);
    expect(sweepTones({ frequency: frequency.subarray(0, 3), amplitude: Float64Array.of(1, 2, 1) })).toEqual([]);
  });
});
