/** The intervals hold the truth as often as they say: 400 random records of the independent generator, nominal 90 %. */
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/matching/reading/estimate.ts";
import { readRecord } from "../../src/matching/record.ts";
import { randomRecord } from "./records.ts";

const records = 400;

describe("the 90 % intervals", () => {
  it("hold the truth in 85 to 95 of 100 records", () => {
    const counts = new Map<string, { inside: number; of: number }>();
    const add = (figure: string, estimate: Estimate | undefined, truth: number) => {
      const count = counts.get(figure) ?? { inside: 0, of: 0 };
      counts.set(figure, count);
      count.of++;
      if (estimate !== undefined && estimate.low <= truth && truth <= estimate.high) count.inside++;
    };
    for (let i = 0; i < records; i++) {
      const several = i % 4 === 0;
      const { record, truth } = randomRecord({
        seed: 5000 + i,
        bursts: several ? 3 : 1,
        jitter: several ? 2e-7 : 0,
        bits: i % 3 === 0 ? 12 : 8,
        longest: 20,
      });
      const { repetition, onTime, carrier, poles } = readRecord(record);
      if (several) add("repetition", repetition?.is.rate, truth.rate);
      add("onTime", onTime?.is.estimate, truth.onTime);
      add("carrier", carrier?.is, truth.carrier);
      if (poles?.is.poles.length !== 2) continue;
      const [lower, upper] = poles.is.poles;
      add("lower", lower!.frequency, truth.poles[0]!.frequency);
      add("upper", upper!.frequency, truth.poles[1]!.frequency);
      add("beat", poles.is.beat, truth.poles[1]!.frequency - truth.poles[0]!.frequency);
      const strongest = lower!.share > upper!.share ? 0 : 1;
      add("q", poles.is.poles[strongest]!.q, truth.poles[strongest]!.q);
      add("decayTime", poles.is.poles[strongest]!.decayTime, truth.poles[strongest]!.decayTime);
    }
    const coverage = [...counts].map(
      ([figure, { inside, of }]) => `${figure} ${((100 * inside) / of).toFixed(1)} % of ${of}`,
    );
    console.log(`90 % intervals hold the truth: ${coverage.join(", ")}`);
    for (const [figure, { inside, of }] of counts) {
      // The count of few records scatters: two standard deviations beyond the band for those of fewer than 300.
      const slack = of < 300 ? 2 * Math.sqrt((0.9 * 0.1) / of) : 0;
      expect(inside / of, figure).toBeGreaterThan(0.85 - slack);
      expect(inside / of, figure).toBeLessThan(0.95 + slack);
    }
  }, 240_000);
});
