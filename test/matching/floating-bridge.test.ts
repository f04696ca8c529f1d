/**
 * Records of a bridge that floats after the drive, 42 random ones, each from one channel. Independent: the exact simulation of
 * test/matching/floating-bridge.ts, with dead time and drops, knows its own truth. Takes about twenty seconds.
 */
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/matching/reading/estimate.ts";
import { readRecord } from "../../src/matching/record.ts";
import { type FloatingView, floatingRecord } from "./floating-records.ts";
import { quantile } from "./records.ts";

const views: readonly FloatingView[] = ["current", "top", "flux"];
const records = views.flatMap((view, k) =>
  Array.from({ length: 14 }, (_, i) => ({ view, seed: 3100 + 100 * k + i, bursts: i % 7 === 0 ? 2 : 1 })),
);

describe("a bridge that floats after the drive", () => {
  const read = records.map((recipe) => {
    const made = floatingRecord({ ...recipe, views: [recipe.view] });
    return { ...recipe, ...made, reading: readRecord(made.record) };
  });

  it("is timed from any one channel: on-time to a half-cycle, carrier to 0.05 % in nine of ten", () => {
    const late = read.map(({ reading, truth }) =>
      Math.abs((reading.onTime!.is.estimate.value - truth.onTime) * 2 * truth.carrier),
    );
    const off = read.map(({ reading, truth }) => Math.abs(reading.carrier!.is.value / truth.carrier - 1));
    expect(quantile(late, 0.9)).toBeLessThan(0.3);
    expect(Math.max(...late)).toBeLessThan(1.5);
    expect(quantile(off, 0.9)).toBeLessThan(5e-4);
  });

  it("repeats as its bursts do", () => {
    for (const { reading, truth, bursts } of read)
      if (bursts > 1) expect(Math.abs(reading.repetition!.is.rate.value / truth.rate - 1)).toBeLessThan(1e-4);
  });

  it("leaves the secondary's own line in a pickup, and no other", () => {
    for (const { view, seed, reading, truth } of read) {
      if (view === "current") continue;
      const lines = reading.poles?.is.poles ?? [];
      // Where the bridge has taken nearly everything back no line stands clear of the noise.
      expect(lines.length, `${view} ${seed}`).toBeLessThanOrEqual(1);
      for (const { frequency } of lines)
        expect(Math.abs(frequency.value / truth.line.frequency - 1), `${view} ${seed}`).toBeLessThan(0.002);
    }
    expect(
      read.filter(({ view, reading }) => view !== "current" && reading.poles !== undefined).length,
    ).toBeGreaterThan(24);
  });

  it("leaves no decay in the primary's current, and what to do is said", () => {
    for (const { view, seed, reading } of read) {
      if (view !== "current") continue;
      expect(reading.poles, `${seed}`).toBeUndefined();
      const said = reading.findings.find(({ rule }) => rule === "record-without-decay");
      expect(said?.remedies[0]?.says).toMatch(/pickup loop/);
    }
  });

  it("has its truth in the intervals, nominal 90 %, as often as so few records can show", () => {
    const counts = new Map<string, { inside: number; of: number }>();
    const add = (figure: string, { low, high }: Estimate, truth: number) => {
      const count = counts.get(figure) ?? { inside: 0, of: 0 };
      counts.set(figure, count);
      count.of++;
      if (low <= truth && truth <= high) count.inside++;
    };
    for (const { reading, truth } of read) {
      add("onTime", reading.onTime!.is.estimate, truth.onTime);
      add("carrier", reading.carrier!.is, truth.carrier);
      for (const { frequency, q, decayTime } of reading.poles?.is.poles ?? []) {
        add("line", frequency, truth.line.frequency);
        add("q", q, truth.line.q);
        add("decayTime", decayTime, truth.line.decayTime);
      }
    }
    console.log([...counts].map(([figure, { inside, of }]) => `${figure} ${inside} of ${of}`).join(", "));
    // Two standard deviations of the count below 85 in 100.
    for (const [figure, { inside, of }] of counts)
      expect(inside / of, figure).toBeGreaterThan(0.85 - 2 * Math.sqrt((0.9 * 0.1) / of));
  });
});
