import { describe, expect, test } from "vitest";
import { writtenValue } from "../../src/app/gestures/written-value.ts";
import { editCoil } from "../../src/readers/coil-file.ts";
import { type Dimension, drawing } from "../../src/views/drawing.ts";
import { boxOf } from "../../src/views/drawing-path.ts";
import { bareText } from "../../src/views/drawing-text.ts";
import { coilOf, exampleNames, exampleText } from "./coil-of-example.ts";

const ofExample = (name: string) => {
  const file = coilOf(exampleText(name));
  return { ...file, drawn: drawing(file.coil, file.provenances) };
};

describe.each(exampleNames)("the drawing of %s", (name) => {
  const { drawn, coil, provenances } = ofExample(name);
  const spans = drawn.dimensions.filter(({ kind }) => kind === "span");

  // law: a dimension line is as long as what it measures
  test.each(spans.map((span) => [span.path, span] as const))(
    "%s is as long as it says",
    (_path, { from, to, value }) => {
      expect(Math.hypot(to.x - from.x, to.z - from.z)).toBeCloseTo(value, 12);
    },
  );

  // law: a body of revolution cut through its axis is its own mirror
  test("is the same on both sides of the axis", () => {
    for (const shape of drawn.shapes.filter(({ path }) => !path.startsWith("site"))) {
      const { left, right } = boxOf(shape);
      expect(left + right).toBeCloseTo(0, 12);
    }
  });

  test("writes every number as the file does", () => {
    for (const { path, text } of drawn.dimensions) {
      const written = provenances.get(path)?.text;
      if (written !== undefined) expect(text).toBe(bareText(written));
    }
  });

  // law: pulling a grip by d along its direction changes the value by gain·d, so the redrawn grip stands under the hand
  test.each(drawn.dimensions.flatMap((one) => (one.grip ? [[one.path, one] as const] : [])))(
    "the grip of %s follows the hand",
    (path, dimension: Dimension) => {
      const { grip, value, step } = dimension;
      if (grip === undefined) throw new Error("no grip");
      const by = value + step > (dimension.most ?? Number.POSITIVE_INFINITY) ? -step : step;
      const wanted = value + by;
      const edited = editCoil(exampleText(name), [{ path, value: writtenValue(dimension, wanted, provenances) }]);
      if (!("text" in edited)) throw new Error(edited.findings[0]?.what);
      const after = coilOf(edited.text);
      const moved = drawing(after.coil, after.provenances).dimensions.find((one) => one.path === path);
      expect(moved?.value).toBeCloseTo(wanted, 9);
      const at = moved?.grip?.at ?? { x: Number.NaN, z: Number.NaN };
      const along = (at.x - grip.at.x) * grip.direction.x + (at.z - grip.at.z) * grip.direction.z;
      expect(along).toBeCloseTo(by / grip.gain, 9);
    },
  );

  test("holds the coil inside the room", () => {
    const { coilBox, roomBox } = drawn;
    expect(roomBox.left).toBeLessThanOrEqual(coilBox.left);
    expect(roomBox.top).toBeGreaterThanOrEqual(coilBox.top);
    expect(coilBox.bottom).toBe(0);
    expect(coilBox.top).toBeGreaterThan(coil.secondary.baseHeight + coil.secondary.length);
  });

  test("says what every dimension is, each once", () => {
    const paths = drawn.dimensions.map(({ path }) => path);
    expect(new Set(paths).size).toBe(paths.length);
    const said = drawn.dimensions.map(({ says }) => says);
    expect(new Set(said).size).toBe(said.length);
  });
});

describe("the shapes", () => {
  const { coil } = ofExample("lectern");

  test("tell turns in circuit from those beyond the tap", () => {
    const count = (tap: number, id: string) => {
      const shapes = drawing({ ...coil, ...(coil.primary ? { primary: { ...coil.primary, tap } } : {}) }).shapes;
      return shapes.find((shape) => shape.id === id)?.strokes.length ?? 0;
    };
    // both halves of eight turns; at 6.5 the seventh is in use
    expect([count(6.5, "primary"), count(6.5, "primary.unused")]).toEqual([14, 2]);
    expect([count(8, "primary"), count(8, "primary.unused")]).toEqual([16, 0]);
  });

  test("leave out what the file leaves out", () => {
    const { primary: _primary, ...bare } = coil;
    const drawn = drawing({ ...bare, topload: [], site: { air: coil.site.air, people: [], objects: [] } });
    expect(drawn.shapes.map(({ material }) => material).sort()).toEqual(
      ["axis", "former", "ground", "winding", "winding"].filter((m, i, all) => all.indexOf(m) === i),
    );
    expect(drawn.dimensions.every(({ path }) => path.startsWith("secondary"))).toBe(true);
  });

  test("draw every kind of top load closed over the axis", () => {
    for (const load of [
      { sphere: { diameter: 0.2, height: 1 } },
      { disc: { diameter: 0.3, thickness: 0.02, height: 1 } },
      { cylinder: { diameter: 0.2, length: 0.3, edgeRadius: 0.02, height: 1 } },
    ] as const) {
      const shape = drawing({ ...coil, topload: [load] }).shapes.find(({ material }) => material === "topload");
      const size = Object.values(load)[0] as { diameter: number };
      expect(shape && boxOf(shape).right).toBeCloseTo(size.diameter / 2, 12);
    }
  });
});
