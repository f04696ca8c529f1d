/**
 * Records of a bridge that floats after the drive, 28 random ones. Independent: the exact simulation of test/matching/floating-bridge.ts
 * knows its own truth. Takes about ten seconds.
 */
import { describe, expect, it } from "vitest";
import { readRecord } from "../../src/matching/record.ts";
import { type FloatingView, floatingRecord } from "./floating-records.ts";

const seeds = (count: number, from: number) => Array.from({ length: count }, (_, i) => from + i);

describe("a bridge that floats after the drive", () => {
  it.each<FloatingView>(["top", "flux"])(
    "leaves the secondary's own line in a pickup that sees its %s, and no other",
    (view) => {
      for (const seed of seeds(8, 300)) {
        const { record, truth } = floatingRecord({ seed, views: [view] });
        const { poles } = readRecord(record);
        expect(poles?.is.poles, `seed ${seed}`).toHaveLength(1);
        expect(poles!.is.beat).toBeUndefined();
        const [line] = poles!.is.poles;
        expect(Math.abs(line!.frequency.value / truth.line.frequency - 1)).toBeLessThan(0.002);
        const { q } = line!;
        // The interval says so itself where noise has left little of the line.
        if (q.high - q.low < 0.04 * q.value) expect(Math.abs(q.value / truth.line.q - 1)).toBeLessThan(0.03);
      }
    },
    60_000,
  );

  it("leaves no decay in the primary's current, and what to do is said", () => {
    for (const seed of seeds(12, 400)) {
      const { findings, poles } = readRecord(floatingRecord({ seed, views: ["current"] }).record);
      expect(poles, `seed ${seed}`).toBeUndefined();
      const said = findings.find(({ rule }) => rule === "record-without-decay");
      expect(said?.remedies[0]?.says).toMatch(/pickup loop/);
    }
  }, 60_000);
});
