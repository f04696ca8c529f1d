/** A drawing at true size over as many sheets as it takes, with marks to join them by. */
import type { Metre } from "../../units/si.ts";
import { fitted, widthOf, wrapped } from "./measure.ts";
import {
  type At,
  type Box,
  circle,
  type Item,
  moved,
  polyline,
  rectangle,
  type Segment,
  type TextItem,
  weight,
} from "./page.ts";
import { type Format, formatOf, type PaperName } from "./paper.ts";
import { checkWords, rulerHeight, rulers } from "./ruler.ts";

const mm = 1e-3;
/** By how much neighbouring sheets show the same. */
export const overlap: Metre = 12 * mm;

interface TileRequest {
  /** About a zero of its own, y down. */
  readonly items: readonly Item[];
  readonly box: Box;
  readonly paper: PaperName;
  /** Words above the drawing of each sheet. */
  readonly says: string;
}

export interface Tiles {
  readonly format: Format;
  /** Row by row; those with nothing on them are left out. */
  readonly bodies: readonly (readonly Item[])[];
}

/** Lays a drawing over sheets, upright or lying: whichever takes fewer. */
export function tiled(request: TileRequest): Tiles {
  const [upright, lying] = [false, true].map((wide) => {
    const format = formatOf(request.paper, { wide });
    return { format, bodies: tilesOf(request, format) };
  }) as [Tiles, Tiles];
  return lying.bodies.length < upright.bodies.length ? lying : upright;
}

function tilesOf({ items, box, says }: TileRequest, format: Format): readonly (readonly Item[])[] {
  const { body } = format;
  const head = 9.5 * mm;
  const band = rulerHeight + 3 * mm;
  const window: Box = { x: body.x, y: body.y + head, width: body.width, height: body.height - head - band };
  const [columns, rows] = [countFor(box.width, window.width), countFor(box.height, window.height)];
  const step = { x: window.width - overlap, y: window.height - overlap };
  // the drawing in the middle of the whole
  const origin = {
    x: box.x + box.width / 2 - (columns * step.x + overlap) / 2,
    y: box.y + box.height / 2 - (rows * step.y + overlap) / 2,
  };
  const pages: Item[][] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const corner = { x: origin.x + column * step.x, y: origin.y + row * step.y };
      const shown = within(moved(items, { x: window.x - corner.x, y: window.y - corner.y }), window);
      if (shown.length === 0) continue;
      const place = { columns, rows, column, row };
      const isOne = columns * rows === 1;
      pages.push([
        ...shown,
        ...(isOne ? [] : registers({ window, ...place })),
        ...headline(says, { body, name: isOne ? "" : nameOf(column, row), ...place }),
        ...checkBand({ x: body.x, y: body.y + body.height - rulerHeight, width: body.width, height: rulerHeight }),
      ]);
    }
  }
  return pages;
}

const countFor = (size: Metre, window: Metre) =>
  size <= window ? 1 : Math.ceil((size - overlap) / (window - overlap) - 1e-9);

/** A letter for the column, a number for the row. */
const nameOf = (column: number, row: number) => `${String.fromCharCode(65 + column)}${row + 1}`;

/**
 * Paths that reach into the window, cut at its edge; words that stand in it whole. Words that would stand on the edge of two sheets are drawn
 * in on the sheet that has their point.
 */
function within(items: readonly Item[], window: Box): Item[] {
  return items.flatMap((item): Item[] => {
    if (item.kind === "path") return touches(item.segments, window) ? [{ ...item, clip: window }] : [];
    const x = intoSpan(item.x, leftOf(item), widthOf(item.text, item), { from: window.x, size: window.width });
    const y = intoSpan(item.y, item.y - item.size, 1.3 * item.size, { from: window.y, size: window.height });
    return x === undefined || y === undefined ? [] : [{ ...item, x, y }];
  });
}

const leftOf = (item: TextItem) => {
  const wide = widthOf(item.text, item);
  return item.x - (item.anchor === "middle" ? wide / 2 : item.anchor === "end" ? wide : 0);
};

/** Where `at` goes so that the stretch `low` to `low + wide` lies in the span: where it is; drawn in, if `at` is nearer to this span's middle than to any neighbour's; nowhere. */
function intoSpan(at: Metre, low: Metre, wide: Metre, { from, size }: { from: Metre; size: Metre }): Metre | undefined {
  const to = from + size;
  if (low >= from && low + wide <= to) return at;
  if (at < from + overlap / 2 || at >= to - overlap / 2) return undefined;
  return at + Math.min(0, to - low - wide) + Math.max(0, from - low);
}

/** Whether a path comes into the window, by its points and the middles between them. */
function touches(segments: readonly Segment[], { x, y, width, height }: Box): boolean {
  let before: At | undefined;
  let start: At | undefined;
  const inside = (at: At) => at.x >= x && at.x <= x + width && at.y >= y && at.y <= y + height;
  for (const segment of segments) {
    const to = segment.kind === "close" ? start : segment.to;
    if (to === undefined) continue;
    if (segment.kind === "move") start = to;
    else if (before) {
      const length = Math.hypot(to.x - before.x, to.y - before.y);
      const count = Math.max(1, Math.ceil(length / (2 * mm)));
      for (let n = 0; n <= count; n++) {
        const at = { x: before.x + ((to.x - before.x) * n) / count, y: before.y + ((to.y - before.y) * n) / count };
        if (inside(at)) return true;
      }
    }
    before = to;
  }
  return false;
}

interface Place {
  readonly columns: number;
  readonly rows: number;
  readonly column: number;
  readonly row: number;
}

/** A ring with a cross, in the middle of each overlap's corner: the same point of the drawing on every sheet that shows it. */
function registers({ window, columns, rows, column, row }: Place & { window: Box }): Item[] {
  const half = overlap / 2;
  const xs = [window.x + half, window.x + window.width - half];
  const ys = [window.y + half, window.y + window.height - half];
  const marks = xs.flatMap((x, i) => ys.map((y, j) => ({ x, y, name: nameOf(column + i, row + j) })));
  const edges: Item[] = [];
  const edge = (from: At, to: At) =>
    edges.push({
      kind: "path",
      segments: polyline([from, to]),
      width: weight.fine,
      tone: "guide",
      dash: [3 * mm, 1.5 * mm],
    });
  const [left, right] = [window.x, window.x + window.width];
  const [top, low] = [window.y, window.y + window.height];
  // cut along the edge that goes on top, and lay it on the ring of its neighbour
  if (column < columns - 1) edge({ x: right - half, y: top }, { x: right - half, y: low });
  if (column > 0) edge({ x: left + half, y: top }, { x: left + half, y: low });
  if (row < rows - 1) edge({ x: left, y: low - half }, { x: right, y: low - half });
  if (row > 0) edge({ x: left, y: top + half }, { x: right, y: top + half });
  return [
    ...edges,
    ...marks.flatMap(({ x, y, name }): Item[] => [
      { kind: "path", segments: circle({ x, y }, 2 * mm), width: weight.thin, tone: "guide", role: `register-${name}` },
      {
        kind: "path",
        segments: [
          ...polyline([
            { x: x - 3.5 * mm, y },
            { x: x + 3.5 * mm, y },
          ]),
          ...polyline([
            { x, y: y - 3.5 * mm },
            { x, y: y + 3.5 * mm },
          ]),
        ],
        width: weight.thin,
        tone: "guide",
      },
    ]),
  ];
}

function headline(
  says: string,
  { body, name, columns, rows, column, row }: Place & { body: Box; name: string },
): readonly Item[] {
  const key = name === "" ? 0 : 30 * mm;
  const size = 2.7 * mm;
  const lines = wrapped(says, { width: body.width - key, size, face: "regular" }).slice(0, 2);
  const words = lines.map(
    (text, n): Item => ({
      kind: "text",
      text,
      x: body.x,
      y: body.y + 3 * mm + n * 3.7 * mm,
      size,
      face: "regular",
      tone: "ink",
      anchor: "start",
    }),
  );
  if (name === "") return words;
  // a small map of the sheets, with this one filled
  const cell = Math.min(3 * mm, (7.5 * mm) / rows, (16 * mm) / columns);
  const map: Item[] = [];
  const right = body.x + body.width;
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++)
      map.push({
        kind: "path",
        segments: rectangle({ x: right - (columns - c) * cell, y: body.y + r * cell, width: cell, height: cell }),
        width: weight.fine,
        tone: "guide",
        fill: r === row && c === column ? "guide" : "paper",
      });
  return [
    ...words,
    ...map,
    {
      kind: "text",
      text: name,
      x: right - columns * cell - 2 * mm,
      y: body.y + 4.2 * mm,
      size: 5 * mm,
      face: "bold",
      tone: "guide",
      anchor: "end",
    },
  ];
}

/** Rules at the left, what to do with them at the right. */
export function checkBand(band: Box): readonly Item[] {
  const left = band.x + 112 * mm;
  const width = band.x + band.width - left;
  const size = 2.3 * mm;
  const lines = wrapped(checkWords, { width, size, face: "regular" });
  return [
    ...rulers({ x: band.x + 2 * mm, y: band.y }),
    ...lines.map(
      (text, n): Item => ({
        kind: "text",
        text,
        x: left,
        y: band.y + 3 * mm + n * 3.1 * mm,
        size,
        face: "regular",
        tone: "ink",
        anchor: "start",
      }),
    ),
  ];
}

/** A word in a drawing at true size. */
export const drawnWord = (
  text: string,
  at: At,
  {
    size = 2.6 * mm,
    anchor = "middle" as const,
    width = 80 * mm,
  }: { size?: Metre; anchor?: "start" | "middle" | "end"; width?: Metre } = {},
): Item => ({
  kind: "text",
  ...fitted(text, { width, size, least: size * 0.6, face: "regular" }),
  ...at,
  face: "regular",
  tone: "ink",
  anchor,
});
