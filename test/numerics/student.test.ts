import { describe, expect, it } from "vitest";
import { studentHalfWidth } from "../../src/numerics/student.ts";

describe("studentHalfWidth", () => {
  it.each([
    // published: the table of Student's distribution in every handbook, here to the digits that it prints
    [0.9, 1, 6.314],
    [0.9, 2, 2.92],
    [0.9, 3, 2.353],
    [0.9, 5, 2.015],
    [0.9, 10, 1.812],
    [0.9, 30, 1.697],
    [0.95, 4, 2.776],
    [0.99, 7, 3.499],
    [0.9, 1e6, 1.645],
  ])("holds %f at %f degrees of freedom within ±%f", (share, freedom, expected) => {
    expect(studentHalfWidth(share, freedom)).toBeCloseTo(expected, 3);
  });

  it("has closed forms for one and two degrees of freedom", () => {
    // law: tan(π·share/2) for one; share·√(2/(1 − share²)) for two
    for (const share of [0.1, 0.5, 0.9, 0.99]) {
      expect(studentHalfWidth(share, 1) / Math.tan((Math.PI * share) / 2)).toBeCloseTo(1, 9);
      expect(studentHalfWidth(share, 2) / (share * Math.sqrt(2 / (1 - share * share)))).toBeCloseTo(1, 9);
    }
  });

  it("refuses what is no share", () => {
    expect(() => studentHalfWidth(1, 3)).toThrow(/share/);
    expect(() => studentHalfWidth(0.9, 0)).toThrow(/freedom/);
  });
});
