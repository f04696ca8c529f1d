/** Columns that grow: what was appended comes back, whatever was expected. */
import { describe, expect, it } from "vitest";
import { GrowingSamples } from "../../../src/readers/capture/growing.ts";

const size = 1 << 18;

describe("samples that grow", () => {
  // law: the list is the values in their order
  it.each([
    ["fewer than expected by much", 400_000, 1_000_000],
    ["hardly fewer than expected", 980_000, 1_000_000],
    ["as many as expected", 1_000_000, 1_000_000],
    ["more than expected", 1_000_000 + size + 7, 1_000_000],
    ["with nothing expected", 2 * size + 3, 0],
    ["exactly two blocks", 2 * size, 0],
    ["none", 0, 500_000],
  ])("are those that came: %s", (_, count, expected) => {
    const samples = new GrowingSamples({ expected });
    const piece = new Float64Array(2 * 4096);
    for (let from = 0; from < count; from += 4096) {
      const rows = Math.min(4096, count - from);
      for (let i = 0; i < rows; i++) piece[2 * i + 1] = from + i;
      samples.append({ values: piece, from: 1, stride: 2, count: rows, factor: 0.5, offset: 1 });
    }
    expect(samples.length).toBe(count);
    const taken = samples.take();
    expect(taken.length).toBe(count);
    expect(taken.findIndex((value, i) => value !== Math.fround(i * 0.5 + 1))).toBe(-1);
  });
});
