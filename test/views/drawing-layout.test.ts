import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { drawing } from "../../src/views/drawing.ts";
import { coilMargins, fitBox, projectionOf, roomMargins } from "../../src/views/drawing-fit.ts";
import { type LayoutStyle, layDimensions, overlaps, wordsOf } from "../../src/views/drawing-layout.ts";
import { pathText, toPage, toPlane } from "../../src/views/drawing-path.ts";
import { coilOf, exampleNames, exampleText } from "./coil-of-example.ts";

const style = (width: number, height: number, group: "coil" | "room"): LayoutStyle => ({
  width,
  height,
  character: 7.4,
  line: 18,
  row: 28,
  notes: width < 620 ? "elsewhere" : "leaders",
  groups: group === "coil" ? ["coil"] : ["room"],
});

function laid(name: string, width: number, height: number, group: "coil" | "room") {
  const { coil, provenances } = coilOf(exampleText(name));
  const drawn = drawing(coil, provenances);
  const page = style(width, height, group);
  const box = group === "coil" ? drawn.coilBox : drawn.roomBox;
  const camera = fitBox(box, page, (group === "coil" ? coilMargins : roomMargins)(drawn, page));
  const projection = projectionOf(camera, page);
  return { drawn, projection, page, placed: layDimensions({ drawing: drawn, projection, style: page }) };
}

const sizes = [
  [344, 500],
  [860, 620],
  [2100, 1250],
] as const;

describe.each(exampleNames)("dimensions of %s", (name) => {
  // law: words that cover each other cannot be read
  test.each(sizes)("do not cover each other on a page of %i × %i", (width, height) => {
    const { placed } = laid(name, width, height, "coil");
    for (const [index, one] of placed.entries()) {
      for (const other of placed.slice(index + 1)) {
        expect(overlaps(one.box, other.box), `${one.dimension.path} over ${other.dimension.path}`).toBe(false);
      }
    }
  });

  test.each(sizes)("all have a place on a page of %i × %i that fits the coil", (width, height) => {
    const { drawn, placed } = laid(name, width, height, "coil");
    const wanted = drawn.dimensions.filter(({ group, kind }) => group === "coil" && (width >= 620 || kind === "span"));
    expect(placed.map(({ dimension }) => dimension.path).sort()).toEqual(wanted.map(({ path }) => path).sort());
  });

  test("of the room all have a place where the room is fitted", () => {
    const { drawn, placed } = laid(name, 860, 620, "room");
    expect(placed.length).toBe(drawn.dimensions.filter(({ group }) => group === "room").length);
  });
});

test("a page point and a plane point are each other's way back", () => {
  const projection = { scale: 812, originX: 300, originY: 555 };
  const point = { x: -0.123, z: 0.456 };
  const back = toPlane(toPage(point, projection), projection);
  expect(back.x).toBeCloseTo(point.x, 12);
  expect(back.z).toBeCloseTo(point.z, 12);
});

test("words read as on a drawing", () => {
  const { drawn } = laid("lectern", 860, 620, "coil");
  const words = (path: string) => drawn.dimensions.filter((one) => one.path === path).map(wordsOf);
  expect(words("secondary.former.outerDiameter")).toEqual(["Ø110 mm"]);
  expect(words("secondary.turns")).toEqual(["1150 turns"]);
  expect(words("primary.tap")).toEqual(["tap at 6.5"]);
  expect(words("topload.0.toroid.tubeDiameter")).toEqual(["tube Ø76 mm"]);
});

// guard: the picture is committed so that a person can look at what changed; the laws above are the other witnesses
test("a coil is drawn as in its committed picture", () => {
  const { drawn, projection, page, placed } = laid("lectern", 860, 620, "coil");
  const shapes = drawn.shapes.map(
    ({ id, material, strokes }) =>
      `  <path data-shape="${id}" fill="none" stroke="${material.startsWith("primary") || material === "winding" ? "#94450f" : "#1b2226"}" d="${pathText(strokes, projection)}"/>`,
  );
  const two = (value: number) => Number(value.toFixed(1));
  const dimensions = placed.flatMap(({ lines, text, textAt, turned, anchor }) => [
    `  <path fill="none" stroke="#0b5263" stroke-width="0.8" d="${lines.map(([a, b]) => `M${two(a.x)} ${two(a.y)}L${two(b.x)} ${two(b.y)}`).join("")}"/>`,
    `  <text x="${two(textAt.x)}" y="${two(textAt.y)}" text-anchor="${anchor}"${turned === 0 ? "" : ` transform="rotate(${turned} ${two(textAt.x)} ${two(textAt.y)})"`}>${text}</text>`,
  ]);
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${page.width} ${page.height}" font-family="monospace" font-size="12.3">`,
    `  <title>${drawn.name}</title>`,
    ...shapes,
    ...dimensions,
    "</svg>\n",
  ].join("\n");
  const path = fileURLToPath(new URL("./drawing-lectern.svg", import.meta.url));
  if (process.env["DRAW_AGAIN"] === "yes") writeFileSync(path, svg);
  expect(svg).toBe(readFileSync(path, "utf8"));
});
