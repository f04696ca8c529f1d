import { describe, expect, it } from "vitest";
import { drawnSigns } from "../../../src/views/sheets/drawn-signs.ts";
import { type Page, type Sheet, type SheetSetting, sheets } from "../../../src/views/sheets/index.ts";
import { widthOf } from "../../../src/views/sheets/measure.ts";
import { pdfOf } from "../../../src/views/sheets/pdf.ts";
import { fonts, type ReadPage, type ReadPath, readPdf } from "./read-pdf.ts";
import { exampleSubject, type examples } from "./subjects.ts";

const date = "2026-01-31";
const sheetOf = (id: string): Sheet => sheets.find((sheet) => sheet.id === id) as Sheet;
const write = (pages: readonly Page[]) => pdfOf(pages, { fonts, title: "Inkwell µΩ", date: new Date(date) });
const laid = (id: string, name: (typeof examples)[number], setting: Partial<SheetSetting> = {}) =>
  sheetOf(id).lay(exampleSubject(name), { paper: "a4", lengths: "mm", date, ...setting });
const read = async (id: string, name: (typeof examples)[number], setting: Partial<SheetSetting> = {}) =>
  readPdf(await write(laid(id, name, setting)));

const length = ({ points }: ReadPath) => {
  const [a, b] = [points[0], points.at(-1)];
  return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
};
/** Circles of a page: centre and least and greatest radius of all points on them. */
const circlesOf = ({ paths }: ReadPage) =>
  paths.flatMap(({ points }) => {
    const first = points[0];
    const last = points.at(-1);
    if (points.length < 33 || !first || !last || Math.hypot(first.x - last.x, first.y - last.y) > 1e-3) return [];
    const around = points.slice(1);
    const x = around.reduce((sum, point) => sum + point.x, 0) / around.length;
    const y = around.reduce((sum, point) => sum + point.y, 0) / around.length;
    const radii = points.map((point) => Math.hypot(point.x - x, point.y - y));
    const [least, greatest] = [Math.min(...radii), Math.max(...radii)];
    return greatest - least < 0.02 ? [{ x, y, radius: (least + greatest) / 2 }] : [];
  });

// independent: the file is read back by a reader that is not ours, and its points are millimetres of paper
describe("true size on paper", () => {
  it.each([
    ["a4", 210, 297],
    ["letter", 215.9, 279.4],
  ] as const)("%s has its size, and a check line of 100 mm", async (paper, width, height) => {
    for (const page of await read("former-ends", "inkwell", { paper })) {
      expect(page.width).toBeCloseTo(width, 2);
      expect(page.height).toBeCloseTo(height, 2);
      const lines = page.paths.filter((path) => path.points.length === 2).map(length);
      expect(lines.some((one) => Math.abs(one - 100) < 0.01)).toBe(true);
      // the rule in inches: 4 in
      expect(lines.some((one) => Math.abs(one - 101.6) < 0.01)).toBe(true);
    }
  });

  it.each(["mm", "in"] as const)("the former's end is the former's diameter, with lengths in %s", async (lengths) => {
    const [page] = await read("former-ends", "inkwell", { lengths });
    const radii = circlesOf(page as ReadPage).map(({ radius }) => radius);
    // 110 mm in the file
    expect(Math.max(...radii)).toBeCloseTo(55, 1);
    expect(Math.abs(Math.max(...radii) - 55)).toBeLessThan(0.1);
  });

  it("the marks of the strip stand at turn × pitch over all its sheets", async () => {
    // belfry: 1420 turns on 820 mm, a mark every 100
    const pages = await read("former-strip", "belfry");
    const found = new Map<string, number>();
    for (const page of pages) for (const { text, y } of page.texts) if (/^turn \d+$/.test(text)) found.set(text, y);
    expect(found.size).toBeGreaterThan(10);
    // neighbours on one sheet: 100 turns are 57.746 mm
    for (const page of pages) {
      const marks = page.texts.filter(({ text }) => /^turn \d+$/.test(text)).sort((a, b) => a.y - b.y);
      for (const [n, mark] of marks.slice(1).entries()) {
        const above = marks[n] as (typeof marks)[number];
        const turns = Number(above.text.slice(5)) - Number(mark.text.slice(5));
        expect(Math.abs(mark.y - above.y - (turns * 820) / 1420)).toBeLessThan(0.1);
      }
    }
  });

  it("the spiral runs where the file's numbers put it, on every sheet that shows it", async () => {
    // inkwell: 8 turns, first centre line 180 mm across, pitch 14 mm; written here again: r(θ) = 90 + 14·θ/2π
    const pages = await read("primary-plan", "inkwell");
    const ofFormer = ({ radius }: { radius: number }) => Math.abs(radius - 55) < 0.1;
    const middle = pages.find((page) => circlesOf(page).some(ofFormer)) as ReadPage;
    const former = circlesOf(middle).find(ofFormer);
    expect(former).toBeDefined();
    const { x, y } = former as { x: number; y: number };
    const longest = middle.paths.toSorted((a, b) => b.points.length - a.points.length).slice(0, 2);
    // the outline is the longer of the two; the centre line has no width
    const centreLine = longest.at(-1) as ReadPath;
    expect(centreLine.points.length).toBeGreaterThan(1000);
    let before = 0;
    let turned = 0;
    for (const [n, point] of centreLine.points.entries()) {
      const angle = Math.atan2(-(point.y - y), point.x - x);
      if (n > 0) turned += ((angle - before + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
      before = angle;
      const expected = 90 + (14 * turned) / (2 * Math.PI);
      expect(Math.abs(Math.hypot(point.x - x, point.y - y) - expected)).toBeLessThan(0.02);
    }
    expect(turned / (2 * Math.PI)).toBeCloseTo(8, 4);
    // the outline lies half the tube's 8 mm to each side
    const outline = longest[0] as ReadPath;
    const reach = outline.points.map((point) => Math.hypot(point.x - x, point.y - y));
    expect(Math.abs(Math.min(...reach) - 86)).toBeLessThan(0.1);
    expect(Math.abs(Math.max(...reach) - 206)).toBeLessThan(0.1);
  });

  it("no word is lost between two sheets", () => {
    for (const name of ["inkwell", "belfry"] as const)
      for (const paper of ["a4", "letter"] as const) {
        const words = laid("primary-plan", name, { paper }).flatMap(({ items }) =>
          items.flatMap((item) => (item.kind === "text" ? [item.text] : [])),
        );
        for (const expected of ["S1", "S2", "S3", "S4", "S5", "S6", "S7", "S8", "start"])
          expect(words).toContain(expected);
        expect(words.some((text) => text.startsWith("tap, "))).toBe(true);
        expect(words.some((text) => text.startsWith("former "))).toBe(true);
      }
  });

  it("sheets join by their rings: a ring is the same point of the spiral on both", async () => {
    const pages = laid("primary-plan", "inkwell");
    // of each page: where the axis lies on it, and its rings by name
    const seen = new Map<string, { x: number; y: number }[]>();
    for (const page of pages) {
      const former = page.items.find((item) => item.kind === "path" && item.role === "outline");
      const origin = former?.kind === "path" ? former.segments[0] : undefined;
      if (origin?.kind !== "move") continue;
      for (const item of page.items) {
        if (item.kind !== "path" || !item.role?.startsWith("register-")) continue;
        const first = item.segments[0];
        if (first?.kind !== "move") continue;
        const at = { x: first.to.x - origin.to.x, y: first.to.y - origin.to.y };
        seen.set(item.role, [...(seen.get(item.role) ?? []), at]);
      }
    }
    const shared = [...seen.values()].filter((places) => places.length > 1);
    expect(shared.length).toBeGreaterThan(4);
    for (const places of shared)
      for (const place of places) {
        expect(place.x).toBeCloseTo(places[0]?.x ?? 0, 9);
        expect(place.y).toBeCloseTo(places[0]?.y ?? 0, 9);
      }
  });

  it("the printed primary's copper reaches from the first turn's inside to the last one's outside", async () => {
    // thimble: first turn 72 mm across, 6 turns at 3.5 mm, trace 2.6 mm; pads a fifth wider than the trace
    const [page] = await read("printed-primary", "thimble");
    const board = circlesOf(page as ReadPage).find(({ radius }) => radius > 50);
    const { x, y } = board as { x: number; y: number };
    const longest = (page as ReadPage).paths.toSorted((a, b) => b.points.length - a.points.length)[0] as ReadPath;
    const reach = longest.points.map((point) => Math.hypot(point.x - x, point.y - y));
    expect(Math.abs(Math.min(...reach) - (36 - 1.3))).toBeLessThan(0.1);
    expect(Math.abs(Math.max(...reach) - (36 + 6 * 3.5 + 1.3))).toBeLessThan(0.1);
  });
});

describe("words on paper", () => {
  it("can be read back, with the signs that the font lacks", async () => {
    const page: Page = {
      width: 0.21,
      height: 0.297,
      title: "signs",
      items: ["470 Ω ± 5 %", "0.35 µH", "45 mm²", "a·b − c ≤ 3", "Δ π ≥ √2 → ∞", "90°", "tan δ"].map((text, n) => ({
        kind: "text" as const,
        text,
        x: 0.02,
        y: 0.02 + n * 0.01,
        size: 0.004,
        face: n % 2 === 0 ? ("regular" as const) : ("bold" as const),
        tone: "ink" as const,
        anchor: "start" as const,
      })),
    };
    const [found] = await readPdf(await write([page]));
    const all = (found as ReadPage).texts
      .map(({ text }) => text)
      .join("")
      .replaceAll("\u03bc", "µ");
    for (const sign of "Ω±µ²·−≤Δπ≥√→∞°δ") expect(all).toContain(sign);
  });

  // independent: the reader takes widths from the font in the file, we from our table
  it("take the width that was measured for them", async () => {
    const page = laid("winding-sheet", "inkwell")[0] as Page;
    const [found] = await readPdf(await write([page]));
    const plain = page.items.flatMap((item) =>
      item.kind === "text" && ![...item.text].some((sign) => sign in drawnSigns) ? [item] : [],
    );
    let compared = 0;
    for (const item of plain) {
      const same = (found as ReadPage).texts.find(
        ({ text, y }) => text === item.text.replaceAll("\u00a0", " ") && Math.abs(y - item.y * 1000) < 0.01,
      );
      if (!same) continue;
      compared++;
      expect(same.width).toBeCloseTo(widthOf(item.text, item) * 1000, 2);
    }
    expect(compared).toBeGreaterThan(40);
  });

  it("is the same file for the same day", async () => {
    const pages = laid("data-plate", "thimble");
    expect(Buffer.from(await write(pages)).equals(Buffer.from(await write(pages)))).toBe(true);
  });
});
