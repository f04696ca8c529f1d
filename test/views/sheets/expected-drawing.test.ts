/** The drawing beside a bring-up step: its lines read back through its own scale. */
import { describe, expect, it } from "vitest";
import { expectedDrawing } from "../../../src/views/sheets/expected-drawing.ts";
import type { Item, TextItem } from "../../../src/views/sheets/page.ts";
import type { ExpectedPicture } from "../../../src/workbench/bringup-contract.ts";

const picture: ExpectedPicture = {
  against: "time",
  unit: "s",
  at: [0, 1e-5, 2e-5, 3e-5, 4e-5],
  traces: [
    { id: "primaryCurrent", says: "primary current", unit: "A", values: [0, 37, -25, 12, 0] },
    { id: "topVoltage", says: "top", unit: "V", values: [0, 4000, 21000, -9000, 500] },
    { id: "interrupter", says: "interrupter", unit: "1", values: [1, 1, 1, 0, 0] },
  ],
  marks: [
    { at: 3e-5, says: "the gates go off" },
    { at: 1e-5, says: "the greatest half-cycle" },
  ],
};
const width = 0.064;
const { draw, height } = expectedDrawing(picture, width);
const items = draw({ x: 0.1, y: 0.05 });
const texts = items.filter((item): item is TextItem => item.kind === "text");
const lines = items.flatMap((item) =>
  item.kind === "path" && item.role === "expected-line"
    ? [item.segments.flatMap((one) => (one.kind === "close" ? [] : [one.to]))]
    : [],
);
/** Numbers at the left of a band, with the height on the page that each stands for. */
const scaleBetween = (top: number, bottom: number) =>
  texts
    .filter(({ anchor, y, text }) => anchor === "end" && y > top && y < bottom && /^[−\d.]+$/.test(text))
    .map(({ text, y, size }) => ({ value: Number(text.replace("−", "-")), y: y - 0.36 * size }));

// law: a point of a line, read against the numbers beside it, is the value that was drawn
describe("a drawing beside a step", () => {
  it.each([
    [0, 1],
    [1, 1e-3],
  ] as const)("has line %d at the heights of its numbers", (which, factor) => {
    const points = lines[which] ?? [];
    const ys = points.map(({ y }) => y);
    const [first, second] = scaleBetween(Math.min(...ys) - 2e-3, Math.max(...ys) + 8e-3).filter(
      ({ y }, n, all) => n === 0 || n === all.length - 1 || y > 0,
    );
    if (!first || !second) throw new Error("no scale");
    const valueAt = (y: number) => first.value + ((y - first.y) / (second.y - first.y)) * (second.value - first.value);
    for (const [n, value] of (picture.traces[which]?.values ?? []).entries())
      expect(valueAt(points[n]?.y ?? 0)).toBeCloseTo(value * factor, 6);
  });

  it("says unit of each band and of time, and names the marks from the left", () => {
    const words = texts.map(({ text }) => text);
    expect(words).toContain("primary current, A");
    expect(words).toContain("top, kV");
    expect(words).toContain("interrupter");
    expect(words).toContain("µs");
    expect(words.join(" ")).toContain("dashed, from the left: the greatest half-cycle; the gates go off");
  });

  it("stays in its own room", () => {
    const places = (item: Item) =>
      item.kind === "text" ? [item] : item.segments.flatMap((one) => (one.kind === "close" ? [] : [one.to]));
    for (const { x, y } of items.flatMap((item) => [...places(item)])) {
      expect(x).toBeGreaterThanOrEqual(0.1);
      expect(x).toBeLessThanOrEqual(0.1 + width);
      expect(y).toBeGreaterThanOrEqual(0.05);
      expect(y).toBeLessThanOrEqual(0.05 + height);
    }
  });

  it("fills its band with a ripple on something steady", () => {
    const ripple = expectedDrawing(
      {
        ...picture,
        marks: [],
        traces: [{ id: "busVoltage", says: "bus", unit: "V", values: [318, 322, 319, 323, 320] }],
      },
      width,
    ).draw({ x: 0, y: 0 });
    const ys = ripple.flatMap((item) =>
      item.kind === "path" && item.role === "expected-line"
        ? item.segments.flatMap((one) => (one.kind === "close" ? [] : [one.to.y]))
        : [],
    );
    expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThan(8e-3);
    expect(ripple.some((item) => item.kind === "text" && item.text === "320")).toBe(true);
  });
});
