import { describe, expect, it } from "vitest";
import {
  decidingCandidate,
  type LineCandidate,
  practiceLine,
  reachLine,
  strikeDistance,
} from "../../src/safety/index.ts";

const reach = (high: number) => ({ low: high / 4, middle: high / 2, high });
const candidate = (id: LineCandidate["id"], distance: number | undefined): LineCandidate => ({
  id,
  says: id,
  distance,
  low: distance,
  source: "stand-off-practice",
});

describe("the line", () => {
  // common practice, no source: strike 1.5 × reach; bystanders the greater of 2 × reach and reach + 1.5 m; the upper bound of reach decides
  it("keeps 1.5 m where the arc is short and twice the reach where it is long", () => {
    expect(strikeDistance(reach(1))).toBe(1.5);
    expect([reachLine(reach(0.5)), reachLine(reach(1.5)), reachLine(reach(3))]).toEqual([2, 3, 6]);
  });

  // common practice, no source: about three metres for a coil of the half-metre class, whose arc reaches half a metre, to about a metre at most
  it("is about three metres for the half-metre class, by reach alone", () => {
    for (const high of [0.5, 0.75, 1, 1.25]) {
      expect(0.15 + reachLine(reach(high))).toBeGreaterThan(practiceLine / 1.5);
      expect(0.15 + reachLine(reach(high))).toBeLessThan(practiceLine * 1.5);
    }
  });

  // law: the greatest decides, and what is not known does not
  it("is decided by what asks for the most", () => {
    const list = [
      candidate("reach", 2),
      candidate("electric", 5),
      candidate("noise", undefined),
      candidate("practice", 3),
    ];
    expect(decidingCandidate(list)?.id).toBe("electric");
    expect(decidingCandidate([candidate("noise", undefined)])).toBeUndefined();
  });
});
