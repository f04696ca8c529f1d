import { describe, expect, it } from "vitest";
import { lineThrough, medianOf, quantileOf, robustDeviation } from "../../src/numerics/robust.ts";
import { chance } from "../matching/two-resonators.ts";

describe("order statistics", () => {
  it("are those of a list that can be read", () => {
    // law: by definition
    expect(medianOf([3, 1, 2])).toBe(2);
    expect(medianOf([4, 1, 2, 3])).toBe(2.5);
    expect(quantileOf([10, 20, 30, 40, 50], 0.25)).toBe(20);
    expect(quantileOf([10, 20], 0.75)).toBe(17.5);
    expect(robustDeviation([1, 1, 1, 1, 1000])).toBe(0);
  });

  it("are those of the sorted list, however long it is and however often a value stands in it", () => {
    // independent: the engine's own sorting
    const random = chance(2);
    const lists = [
      Array.from({ length: 20_001 }, () => random.normal()),
      Array.from({ length: 20_000 }, () => Math.round(3 * random.normal())),
      Array.from({ length: 5000 }, (_, i) => i),
      Array.from({ length: 5000 }, (_, i) => -i),
      new Array(5000).fill(7),
    ];
    for (const values of lists) {
      const sorted = Float64Array.from(values).sort();
      for (const rank of [0, 1, 700, values.length >> 1, values.length - 2, values.length - 1])
        expect(quantileOf(values, rank / (values.length - 1))).toBeCloseTo(sorted[rank]!, 9);
    }
    expect(medianOf(lists[1]!)).toBe(0);
  });

  it("give the standard deviation of normal values, wild ones or not", () => {
    // law: 1.4826 × the median distance is the deviation of a normal distribution; 4000 values leave 2 %
    const random = chance(1);
    const values = Array.from({ length: 4000 }, () => 5 + 2 * random.normal());
    expect(robustDeviation(values)).toBeCloseTo(2, 1);
    values.fill(1e9, 0, 200);
    expect(robustDeviation(values)).toBeLessThan(2.4);
  });
});

describe("lineThrough", () => {
  it("gives back a line, its scatter and the spread of its places", () => {
    // law: points on a line have no scatter; two points are always on one
    const line = lineThrough([0, 1, 2, 5], [3, 5, 7, 13]);
    expect(line.slope).toBeCloseTo(2, 12);
    expect(line.intercept).toBeCloseTo(3, 12);
    expect(line.scatter).toBeCloseTo(0, 9);
    expect(line.spread).toBeCloseTo(14, 12);
    expect(lineThrough([0, 1], [0, 4]).scatter).toBe(0);
  });
});
