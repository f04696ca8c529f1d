import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layPlot, valueAt } from "../../src/views/plots.ts";
import { ticks } from "../../src/views/plots-ticks.ts";

describe("ticks", () => {
  test("are round numbers inside the interval", () => {
    expect(ticks({ low: 60, high: 130, wanted: 5 })).toEqual([60, 80, 100, 120]);
    expect(ticks({ low: 0, high: 1, wanted: 4 })).toEqual([0, 0.5, 1]);
    expect(ticks({ low: -0.03, high: 0.03, wanted: 6 })).toEqual([-0.03, -0.02, -0.01, 0, 0.01, 0.02, 0.03]);
  });

  // law: evenly spaced by 1, 2 or 5 of a decade, never outside, never many more than wanted
  test("keep to that for every interval", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        (low, span, wanted) => {
          const found = ticks({ low, high: low + span, wanted });
          const step = (found[1] ?? 0) - (found[0] ?? 0);
          expect(found.length).toBeLessThanOrEqual(wanted + 1);
          for (const [index, tick] of found.entries()) {
            expect(tick).toBeGreaterThanOrEqual(low - span * 1e-6);
            expect(tick).toBeLessThanOrEqual(low + span * (1 + 1e-6));
            if (index > 0) expect(tick - (found[index - 1] ?? 0)).toBeCloseTo(step, 6);
          }
        },
      ),
    );
  });

  test("are none where there is no interval", () => {
    expect(ticks({ low: 3, high: 3, wanted: 5 })).toEqual([]);
    expect(ticks({ low: Number.NaN, high: 3, wanted: 5 })).toEqual([]);
  });
});

describe("a plot", () => {
  const margin = { left: 40, right: 10, top: 10, bottom: 30 };
  const plot = layPlot({
    width: 300,
    height: 200,
    margin,
    lines: [{ id: "a", x: [0, 1, 2], y: [0, 10, 20] }],
    yLimits: [0, 20],
    xTicks: 2,
    yTicks: 2,
  });

  test("spans its field with its limits, y upward", () => {
    expect([plot.x.toPage(0), plot.x.toPage(2)]).toEqual([40, 290]);
    expect([plot.y.toPage(0), plot.y.toPage(20)]).toEqual([170, 10]);
    expect(plot.lines[0]?.path).toBe("M40.0 170.0L165.0 90.0L290.0 10.0");
  });

  // law: from the page and back
  test("finds the value under a position", () => {
    expect(plot.x.fromPage(plot.x.toPage(1.234))).toBeCloseTo(1.234, 12);
    expect(plot.y.fromPage(plot.y.toPage(17))).toBeCloseTo(17, 12);
  });

  test("breaks a line where it is not finite", () => {
    const broken = layPlot({
      width: 300,
      height: 200,
      margin,
      lines: [{ id: "a", x: [0, 1, 2, 3], y: [1, Number.NaN, 3, 4] }],
      yLimits: [0, 5],
      xTicks: 2,
      yTicks: 2,
    });
    expect(broken.lines[0]?.path.match(/M/g)?.length).toBe(2);
  });

  test("reads a line between its points, and nothing outside them", () => {
    const line = { x: [0, 1, 3], y: [0, 10, 30] };
    expect(valueAt(line, 2)).toBe(20);
    expect(valueAt(line, 3)).toBe(30);
    expect(valueAt(line, 3.1)).toBeUndefined();
  });
});
