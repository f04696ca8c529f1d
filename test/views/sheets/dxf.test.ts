import DxfParser from "dxf-parser";
import { describe, expect, it } from "vitest";
import { dxfOf } from "../../../src/views/sheets/dxf.ts";
import { type Sheet, type SheetSubject, sheets } from "../../../src/views/sheets/index.ts";
import { exampleSubject } from "./subjects.ts";

interface ReadEntity {
  readonly type: string;
  readonly layer: string;
  readonly center?: { x: number; y: number };
  readonly radius?: number;
  readonly shape?: boolean;
  readonly vertices?: readonly { x: number; y: number; bulge?: number }[];
}

const setting = { paper: "a4", lengths: "mm", date: "2026-01-31" } as const;

/** As an independent reader sees it. */
function readBack(id: string, subject: SheetSubject, lengths: "mm" | "in") {
  const sheet = sheets.find((one) => one.id === id) as Sheet;
  const cut = sheet.cut?.(subject, { ...setting, lengths });
  if (!cut) throw new Error(`${id} has no drawing`);
  const found = new DxfParser().parseSync(dxfOf(cut, { lengths }));
  if (!found) throw new Error("not read");
  return {
    header: found.header,
    layers: found.tables.layer.layers,
    entities: found.entities as unknown as readonly ReadEntity[],
  };
}

/** Points along a bulged line, dense enough for a comparison in micrometres. */
function walk(vertices: NonNullable<ReadEntity["vertices"]>): { x: number; y: number }[] {
  return vertices.flatMap((from, n) => {
    const to = vertices[n + 1];
    if (!to) return [from];
    const angle = 4 * Math.atan(from.bulge ?? 0);
    if (angle === 0) return [from];
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const sagitta = ((from.bulge ?? 0) * Math.hypot(dx, dy)) / 2;
    const chord = Math.hypot(dx, dy);
    // middle of the arc: to the right of the chord for an arc that runs anticlockwise
    return [from, { x: (from.x + to.x) / 2 + (sagitta * dy) / chord, y: (from.y + to.y) / 2 - (sagitta * dx) / chord }];
  });
}

// independent: dxf-parser reads what we wrote
describe("a drawing for machines", () => {
  it.each([
    ["mm", 4, 1],
    ["in", 1, 25.4],
  ] as const)("says its unit and keeps its size, in %s", (lengths, code, millimetres) => {
    const { header, layers, entities } = readBack("former-ends", exampleSubject("inkwell"), lengths);
    expect(header["$INSUNITS"]).toBe(code);
    expect(Object.keys(layers).sort()).toEqual(["DRILL", "GUIDE", "OUTLINE"]);
    const outline = entities.filter(({ type, layer }) => type === "CIRCLE" && layer === "OUTLINE");
    // former of 110 mm
    expect(outline.map(({ radius = 0 }) => radius * millimetres)).toEqual([expect.closeTo(55, 3)]);
    const drills = entities.filter(({ type, layer }) => type === "CIRCLE" && layer === "DRILL");
    expect(drills).toHaveLength(4);
    for (const { radius = 0 } of drills) expect(radius * millimetres).toBeCloseTo(1.5, 3);
  });

  it("holds the spiral, arcs and all, within a hundredth of a millimetre", () => {
    // inkwell: r(θ) = 90 mm + 14 mm·θ/2π, 8 turns
    const { entities } = readBack("primary-plan", exampleSubject("inkwell"), "mm");
    const line = entities
      .filter(({ type, shape }) => type === "POLYLINE" && !shape)
      .toSorted((a, b) => (b.vertices?.length ?? 0) - (a.vertices?.length ?? 0))[0];
    const points = walk(line?.vertices ?? []);
    expect(points.length).toBeGreaterThan(300);
    let before = 0;
    let turned = 0;
    for (const [n, { x, y }] of points.entries()) {
      const angle = Math.atan2(y, x);
      if (n > 0) turned += ((angle - before + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
      before = angle;
      expect(Math.abs(Math.hypot(x, y) - 90 - (14 * turned) / (2 * Math.PI))).toBeLessThan(0.01);
    }
    expect(turned / (2 * Math.PI)).toBeCloseTo(8, 4);
  });

  it("puts a hole where the conductor crosses each support", () => {
    const { entities } = readBack("primary-plan", exampleSubject("inkwell"), "mm");
    const holes = entities.filter(({ type, layer }) => type === "CIRCLE" && layer === "DRILL");
    // eight supports, eight turns: the start and the end stand on support 1
    expect(holes).toHaveLength(8 * 8 + 1);
    for (const { center } of holes) {
      const { x, y } = center as { x: number; y: number };
      const angle = (Math.atan2(y, x) + 2 * Math.PI) % (2 * Math.PI);
      const radius = Math.hypot(x, y);
      const turns = (radius - 90) / 14;
      // on the spiral: its radius says the same angle as its place
      const off = Math.abs(((turns * 2 * Math.PI - angle + 3 * Math.PI) % (2 * Math.PI)) - Math.PI);
      expect(off * radius).toBeLessThan(0.01);
      expect(((angle * 8) / (2 * Math.PI)) % 1).toSatisfy((part: number) => part < 1e-4 || part > 1 - 1e-4);
    }
  });

  it("has the copper of both faces as closed outlines, wound so that the current goes round one way", () => {
    const { entities } = readBack("printed-primary", exampleSubject("thimble"), "mm");
    const area = (layer: string) => {
      const band = entities.find((one) => one.layer === layer && one.type === "POLYLINE");
      expect(band?.shape).toBe(true);
      // first half of the outline follows the outer edge from the first turn outwards
      const points = (band?.vertices ?? []).slice(0, (band?.vertices?.length ?? 0) / 2);
      return points.reduce((sum, { x, y }, n) => {
        const next = points[n + 1];
        return next ? sum + (x * next.y - next.x * y) / 2 : sum;
      }, 0);
    };
    // outwards anticlockwise on one face, outwards clockwise (inwards anticlockwise) on the other
    expect(area("COPPER-UPPER")).toBeGreaterThan(0);
    expect(area("COPPER-LOWER")).toBeLessThan(0);
    // one hole, at the inner end: another would join the outer ends
    const drills = entities.filter(({ layer }) => layer === "DRILL");
    expect(drills.map(({ center }) => [center?.x, center?.y])).toEqual([[expect.closeTo(36, 3), expect.closeTo(0, 3)]]);
  });

  it("steps the crossings along each support's strip by the pitch", () => {
    // belfry: 9 turns at 22 mm along the slope, eight supports
    const { entities } = readBack("primary-supports", exampleSubject("belfry"), "in");
    const holes = entities.filter(({ type, layer }) => type === "CIRCLE" && layer === "DRILL");
    const rows = grouped(holes);
    expect(rows.size).toBe(8);
    for (const [index, row] of [...rows.values()].entries()) {
      const at = row.map(({ center }) => (center?.x ?? 0) * 25.4).sort((a, b) => a - b);
      for (const [n, x] of at.entries()) expect(x).toBeCloseTo(22 * (n + index / 8), 3);
    }
  });
});

function grouped(holes: readonly ReadEntity[]): Map<string | undefined, ReadEntity[]> {
  const rows = new Map<string | undefined, ReadEntity[]>();
  for (const hole of holes) {
    const key = hole.center?.y.toFixed(4);
    rows.set(key, [...(rows.get(key) ?? []), hole]);
  }
  return rows;
}
