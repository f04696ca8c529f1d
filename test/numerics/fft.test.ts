import { describe, expect, it } from "vitest";
import { fourierTransform, powerOfTwoFrom } from "../../src/numerics/fft.ts";

/** A fixed, uneven row of numbers in −1 … 1. */
const sample = (count: number) => Array.from({ length: count }, (_, i) => Math.sin(1 + 7.3 * i + 0.11 * i * i));

describe("fourierTransform", () => {
  // independent: the sum that defines the transform, term by term; 3e-13 is rounding over 64 terms
  it.each([2, 4, 8, 64])("equals the defining sum for %d points", (size) => {
    const from = sample(2 * size);
    const into = new Array<number>(2 * size).fill(0);
    fourierTransform(size).forward(from, into);
    for (let k = 0; k < size; k++) {
      let [re, im] = [0, 0];
      for (let n = 0; n < size; n++) {
        const angle = (-2 * Math.PI * k * n) / size;
        re += from[2 * n]! * Math.cos(angle) - from[2 * n + 1]! * Math.sin(angle);
        im += from[2 * n]! * Math.sin(angle) + from[2 * n + 1]! * Math.cos(angle);
      }
      expect(Math.abs(into[2 * k]! - re)).toBeLessThan(3e-13);
      expect(Math.abs(into[2 * k + 1]! - im)).toBeLessThan(3e-13);
    }
  });

  // law: forward and back is the identity, and the energy is kept (Parseval)
  it("comes back to where it began and keeps the energy", () => {
    const transform = fourierTransform(1024);
    const from = sample(2048);
    const turned = transform.array();
    const back = transform.array();
    transform.forward(from, turned);
    transform.inverse(turned, back);
    const energy = (row: number[]) => row.reduce((sum, x) => sum + x * x, 0);
    expect(Math.max(...back.map((x, i) => Math.abs(x - from[i]!)))).toBeLessThan(1e-14);
    expect(Math.abs(energy(turned) / energy(from) / 1024 - 1)).toBeLessThan(1e-13);
  });

  it.each([0, 1, 3, 12, 2.5])("refuses %d points", (size) =>
    expect(() => fourierTransform(size)).toThrow(/power of two/),
  );
  // law: definition of the next power of two
  it("finds the next power of two", () =>
    expect([1, 2, 3, 1024, 1025].map(powerOfTwoFrom)).toEqual([2, 2, 4, 1024, 2048]));
});
