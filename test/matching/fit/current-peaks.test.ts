import { describe, expect, it } from "vitest";
import { currentPeaks } from "../../../src/matching/fit/current-peaks.ts";
import { chance } from "../two-resonators.ts";

const interval = 50e-9;
/** A current that grows evenly: i = a·t·sin(ωt) from sample 200 on, with an offset and noise. */
function rising({ noise, offset }: { noise: number; offset: number }): Float32Array {
  const random = chance(3);
  return Float32Array.from({ length: 1200 }, (_, n) => {
    const t = (n - 200) * interval;
    return (t > 0 ? 2e6 * t * Math.sin(2 * Math.PI * 2e5 * t) : 0) + offset + noise * random.normal();
  });
}

describe("currentPeaks", () => {
  it("finds the peak of every half-cycle, the channel's offset taken away and its scale applied", () => {
    const peaks = currentPeaks({
      samples: rising({ noise: 0.05, offset: 0.4 }),
      perUnit: 100,
      from: 200,
      to: 1200,
      noise: 0.05,
      offset: 0.4,
      interval,
      most: 12,
    });
    expect(peaks).toHaveLength(12);
    // independent: tan(ωt) = −ωt by iteration gives the peaks of t·sin(ωt)
    peaks.forEach(({ current, time }, n) => {
      let x = (n + 0.5) * Math.PI;
      for (let k = 0; k < 50; k++) x = (n + 1) * Math.PI - Math.atan(x);
      const t = x / (2 * Math.PI * 2e5);
      expect(Math.abs(current - 100 * 2e6 * t * Math.abs(Math.sin(x)))).toBeLessThan(100 * 4 * 0.05);
      expect(Math.abs(time - t)).toBeLessThan(3 * interval);
    });
  });

  it("is not raised by noise or by the steps of a converter", () => {
    const step = 0.3;
    const samples = rising({ noise: 0.1, offset: 0 }).map((value) => step * Math.round(value / step));
    const peaks = currentPeaks({
      samples,
      perUnit: 1,
      from: 200,
      to: 1200,
      noise: 0.13,
      offset: 0,
      interval,
      most: 16,
    });
    // independent: as above
    const over = peaks.slice(4).map(({ current }, m) => {
      const n = m + 4;
      let x = (n + 0.5) * Math.PI;
      for (let k = 0; k < 50; k++) x = (n + 1) * Math.PI - Math.atan(x);
      return current - (2e6 * x * Math.abs(Math.sin(x))) / (2 * Math.PI * 2e5);
    });
    expect(over).toHaveLength(12);
    // three standard errors of a mean of twelve (0.13 over √12, and over √6 by the parabola's fifteen samples), and a thousandth of the peaks
    expect(Math.abs(over.reduce((sum, by) => sum + by, 0) / over.length)).toBeLessThan(0.05);
  });

  it("ends at a gap in the record and takes noise for no half-cycle", () => {
    const samples = rising({ noise: 0, offset: 0 });
    samples[400] = Number.NaN;
    const settings = { samples, perUnit: 1, from: 200, to: 1200, noise: 0.01, offset: 0, interval, most: 12 };
    expect(currentPeaks(settings).length).toBeLessThanOrEqual(4);
    const quiet = Float32Array.from({ length: 300 }, (_, n) => (n % 2 === 0 ? 0.01 : -0.01));
    expect(currentPeaks({ ...settings, samples: quiet, noise: 0.01, to: 300 })).toEqual([]);
  });
});
