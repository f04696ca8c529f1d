import { describe, expect, test } from "vitest";
import { contourAreas, contourLines, roundLevels } from "../../src/views/drawing-contours.ts";
import { placeLabels } from "../../src/views/drawing-labels.ts";
import { overlaps } from "../../src/views/drawing-layout.ts";

const columns = 60;
const rows = 80;
const radius = Float64Array.from({ length: columns }, (_, i) => i * 0.01);
const height = Float64Array.from({ length: rows }, (_, i) => i * 0.01);
const distance = new Float64Array(columns * rows);
for (let row = 0; row < rows; row++) {
  for (let column = 0; column < columns; column++) {
    distance[row * columns + column] = Math.hypot(radius[column] ?? 0, (height[row] ?? 0) - 0.4);
  }
}
const map = { radius, height, potential: distance, field: distance };

describe("contours of the distance from a point on the axis", () => {
  const lines = contourLines(map, distance, [0.1, 0.2, 0.3]);

  // independent: lines of equal distance are circles, in closed form; linear interpolation on a 10 mm grid is within 0.2 mm of them
  test("are circles about it", () => {
    for (const { level, strokes } of lines) {
      for (const stroke of strokes) {
        if (stroke.kind !== "polyline") throw new Error("a contour is a polyline");
        for (const { x, z } of stroke.points) expect(Math.abs(Math.hypot(x, z - 0.4) - level)).toBeLessThan(3e-4);
      }
    }
  });

  test("reach the axis and are mirrored over it", () => {
    for (const { strokes } of lines) {
      const points = strokes.flatMap((stroke) => (stroke.kind === "polyline" ? stroke.points : []));
      expect(Math.min(...points.map(({ x }) => Math.abs(x)))).toBeLessThan(1e-9);
      expect(Math.min(...points.map(({ x }) => x))).toBeCloseTo(-Math.max(...points.map(({ x }) => x)), 12);
    }
  });

  test("do not run along the frame of the grid", () => {
    const [line] = contourLines(map, distance, [0.5]);
    const points = line?.strokes.flatMap((stroke) => (stroke.kind === "polyline" ? stroke.points : [])) ?? [];
    expect(points.length).toBeGreaterThan(10);
    for (const { x, z } of points) expect(Math.abs(Math.hypot(x, z - 0.4) - 0.5)).toBeLessThan(3e-4);
  });

  test("close into areas for filling", () => {
    for (const { strokes } of contourAreas(map, distance, [0.1, 0.3])) {
      expect(strokes.every((stroke) => stroke.kind === "polyline" && stroke.closed)).toBe(true);
    }
  });

  test("carry numbers that cover neither each other nor what is there", () => {
    const taken = [{ x: 300, y: 0, width: 80, height: 400 }];
    const labels = placeLabels({
      contours: lines,
      projection: { scale: 800, originX: 300, originY: 700 },
      page: { width: 800, height: 720 },
      taken,
      character: 7,
      textOf: (level) => `${level} m`,
    });
    expect(labels.length).toBe(3);
    for (const [index, { box }] of labels.entries()) {
      expect(
        [...taken, ...labels.slice(index + 1).map((label) => label.box)].some((other) => overlaps(box, other)),
      ).toBe(false);
    }
  });
});

test("round levels are the greatest 1, 2, 5 · 10ⁿ below the maximum", () => {
  expect(roundLevels(Float64Array.of(0, 3, 43), 5)).toEqual([1, 2, 5, 10, 20]);
  expect(roundLevels(Float64Array.of(0.5), 2)).toEqual([0.1, 0.2]);
  expect(roundLevels(Float64Array.of(0, 0), 4)).toEqual([]);
});
