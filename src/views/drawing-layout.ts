/** Where each dimension's lines and words go on a page: drafting practice, with words that do not cover each other. */
import type { Dimension, Drawing } from "./drawing.ts";
import { type Projection, toPage } from "./drawing-path.ts";

export interface PagePoint {
  readonly x: number;
  readonly y: number;
}

export interface PageBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PlacedDimension {
  readonly dimension: Dimension;
  /** Prefix, text and suffix as one. */
  readonly text: string;
  readonly textAt: PagePoint;
  /** Degrees, 0 or −90. */
  readonly turned: number;
  readonly anchor: "start" | "middle" | "end";
  /** Around the words, to press on. */
  readonly box: PageBox;
  readonly lines: readonly (readonly [PagePoint, PagePoint])[];
  /** Arrowheads: where the tip is, and the direction it points to in degrees. */
  readonly arrows: readonly { readonly at: PagePoint; readonly degrees: number }[];
  readonly gripAt?: PagePoint;
}

export interface LayoutStyle {
  readonly width: number;
  readonly height: number;
  /** Width of one character and height of one line of the words. */
  readonly character: number;
  readonly line: number;
  /** Distance from row to row. */
  readonly row: number;
  /** Whether notes stand on leaders beside the coil, or are listed elsewhere. */
  readonly notes: "leaders" | "elsewhere";
  readonly groups: readonly Dimension["group"][];
}

/** Prefix, text and suffix of a dimension as one line. */
export function wordsOf({ prefix, text, suffix }: Dimension): string {
  const joined =
    prefix.endsWith("Ø") || prefix.endsWith("R") || prefix === "" ? `${prefix}${text}` : `${prefix} ${text}`;
  return suffix === "" ? joined : `${joined} ${suffix}`;
}

/** Whether two boxes share any area. */
export const overlaps = (a: PageBox, b: PageBox) =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

const shifted = (box: PageBox, by: PagePoint): PageBox => ({ ...box, x: box.x + by.x, y: box.y + by.y });

const boxOfLine = ([a, b]: readonly [PagePoint, PagePoint]): PageBox => ({
  x: Math.min(a.x, b.x) - 1,
  y: Math.min(a.y, b.y) - 1,
  width: Math.abs(a.x - b.x) + 2,
  height: Math.abs(a.y - b.y) + 2,
});

/** Walls and what is beyond them: nothing is written over them. */
function wallBoxes({ drawing, projection }: Setting): PageBox[] {
  const hatching = 10;
  return drawing.shapes
    .filter(({ material }) => material === "wall")
    .flatMap(({ strokes }) => strokes)
    .flatMap((stroke) => (stroke.kind === "polyline" ? [stroke.points.map((p) => toPage(p, projection))] : []))
    .flatMap(([a, b]) => (a === undefined || b === undefined ? [] : [boxOfLine([a, b])]))
    .map((box) => ({ ...box, x: box.x - hatching, width: box.width + 2 * hatching }));
}

/** Moves a box by whole steps until it covers none of `taken`; gives up after twelve. */
function free(box: PageBox, step: PagePoint, taken: readonly PageBox[]): PagePoint {
  for (let n = 0; n < 12; n++) {
    const by = { x: step.x * n, y: step.y * n };
    if (!taken.some((other) => overlaps(shifted(box, by), other))) return by;
  }
  return { x: 0, y: 0 };
}

interface Setting {
  readonly drawing: Drawing;
  readonly projection: Projection;
  readonly style: LayoutStyle;
}

const widthOf = (words: string, { character }: LayoutStyle) => words.length * character;

/** Words of a vertical span: where they stand for a line at `x`. */
interface Standing {
  readonly box: PageBox;
  readonly textAt: PagePoint;
  readonly turned: 0 | -90;
}

/** The places that drafting allows, best first: along the line; where it is too short, over its upper end or under its lower one. */
function standings(
  { x, high, low, width }: { x: number; high: number; low: number; width: number },
  line: number,
): Standing[] {
  const along = (top: number): Standing => ({
    box: { x: x - line - 1, y: top - 4, width: line + 6, height: width + 8 },
    textAt: { x: x - 5, y: top + width / 2 },
    turned: -90,
  });
  if (low - high > width + 18) return [along((low + high - width) / 2)];
  const over: Standing = {
    box: { x: x - width / 2 - 4, y: high - line - 12, width: width + 8, height: line + 6 },
    textAt: { x, y: high - 14 },
    turned: 0,
  };
  return [over, along(high - width - 14), along(low + 10)];
}

/** A vertical span on its lane to the right of everything it measures. */
function placeVertical(
  dimension: Dimension,
  laneX: number,
  { projection, style }: Setting,
  taken: readonly PageBox[],
): PlacedDimension {
  const from = toPage(dimension.from, projection);
  const to = toPage(dimension.to, projection);
  const words = wordsOf(dimension);
  const [low, high] = [Math.max(from.y, to.y), Math.min(from.y, to.y)];
  const lanes = [0, 1, 2, 3, 4, 5].map((n) => laneX + (n * style.row) / 2);
  const tried = lanes.flatMap((x) =>
    standings({ x, high, low, width: widthOf(words, style) }, style.line).map((standing) => ({ x, standing })),
  );
  const free = tried.find(({ standing }) => !taken.some((other) => overlaps(standing.box, other)));
  const { x, standing } = free ?? (tried[0] as (typeof tried)[number]);
  const beyond = x >= Math.max(from.x, to.x) ? 4 : -4;
  return {
    dimension,
    text: words,
    anchor: "middle",
    ...standing,
    lines: [
      [from, { x: x + beyond, y: from.y }],
      [to, { x: x + beyond, y: to.y }],
      [
        { x, y: low },
        { x, y: high },
      ],
    ],
    arrows: [
      { at: { x, y: low }, degrees: 90 },
      { at: { x, y: high }, degrees: -90 },
    ],
  };
}

/** A horizontal span on its row above, below or between, words over the line. */
function placeHorizontal(
  dimension: Dimension,
  rowY: number,
  setting: Setting,
  taken: readonly PageBox[],
): PlacedDimension {
  const { projection, style } = setting;
  const from = toPage(dimension.from, projection);
  const to = toPage(dimension.to, projection);
  const words = wordsOf(dimension);
  const width = widthOf(words, style);
  const left = Math.min(from.x, to.x);
  const right = Math.max(from.x, to.x);
  const inside = right - left > width + 14;
  const centre = inside ? clampedCentre(left, right, width, style) : right + 10 + width / 2;
  const boxAt = (y: number): PageBox => ({
    x: centre - width / 2 - 4,
    y: inside ? y - style.line - 1 : y - style.line / 2 - 3,
    width: width + 8,
    height: style.line + 6,
  });
  const step = dimension.side === "above" ? -style.row / 2 : style.row / 2;
  const y = rowY + free(boxAt(rowY), { x: 0, y: step }, taken).y;
  const box = boxAt(y);
  const beyond = dimension.side === "above" ? -4 : 4;
  const witness: [PagePoint, PagePoint][] =
    dimension.side === "between"
      ? []
      : [
          [from, { x: from.x, y: y + beyond }],
          [to, { x: to.x, y: y + beyond }],
        ];
  return {
    dimension,
    text: words,
    textAt: { x: centre, y: inside ? y - 5 : y + 4 },
    turned: 0,
    anchor: "middle",
    box,
    lines: [
      ...witness,
      [
        { x: left, y },
        { x: inside ? right : right + 8, y },
      ],
    ],
    arrows: [
      { at: { x: left, y }, degrees: 180 },
      { at: { x: right, y }, degrees: 0 },
    ],
  };
}

/** The middle of a line, or as near to it as keeps the words on the page and over the line. */
function clampedCentre(left: number, right: number, width: number, style: LayoutStyle): number {
  const low = Math.max(left, 0) + width / 2 + 6;
  const high = Math.min(right, style.width) - width / 2 - 6;
  if (low > high) return (left + right) / 2;
  return Math.min(Math.max((left + right) / 2, low), high);
}

const isVertical = ({ from, to }: Dimension) => Math.abs(to.z - from.z) > Math.abs(to.x - from.x);

/** Space between stacks of notes, and between them and the edges of the page. */
const noteGap = 10;
const noteEdge = 18;

/** Pushes stacks that run off the page back onto it, the lower ones first. */
function keepOnPage(stacks: { top: number; readonly height: number }[], { height }: LayoutStyle): void {
  let floor = height - noteEdge;
  for (const stack of stacks.toReversed()) {
    stack.top = Math.min(stack.top, floor - stack.height);
    floor = stack.top - noteGap;
  }
  let roof = noteEdge;
  for (const stack of stacks) {
    stack.top = Math.max(stack.top, roof);
    roof = stack.top + stack.height + noteGap;
  }
}

/** Notes in one column left of the coil, those on one anchor stacked, the stacks pushed apart. */
function placeNotes(notes: readonly Dimension[], setting: Setting): PlacedDimension[] {
  const { drawing, projection, style } = setting;
  const pitch = style.line + 6;
  const shelf = toPage({ x: drawing.coilBox.left, z: 0 }, projection).x - style.row;
  const stacks = new Map<string, Dimension[]>();
  for (const note of notes) {
    const key = `${note.from.x.toFixed(6)} ${note.from.z.toFixed(6)}`;
    stacks.set(key, [...(stacks.get(key) ?? []), note]);
  }
  const ordered = [...stacks.values()]
    .map((lines) => {
      const anchor = toPage((lines[0] as Dimension).from, projection);
      return { lines, anchor, top: anchor.y - (lines.length * pitch) / 2, height: lines.length * pitch };
    })
    .sort((a, b) => a.anchor.y - b.anchor.y);
  for (let pass = 0; pass < 40; pass++) {
    for (let i = 1; i < ordered.length; i++) {
      const above = ordered[i - 1] as (typeof ordered)[number];
      const below = ordered[i] as (typeof ordered)[number];
      const overlap = above.top + above.height + noteGap - below.top;
      if (overlap > 0) {
        above.top -= overlap / 2;
        below.top += overlap / 2;
      }
    }
  }
  keepOnPage(ordered, style);
  return ordered.flatMap(({ lines, anchor, top, height }) => {
    const middle = top + height / 2;
    return lines.map((dimension, index): PlacedDimension => {
      const words = wordsOf(dimension);
      const width = widthOf(words, style);
      const y = top + index * pitch;
      const leader: [PagePoint, PagePoint][] =
        index === 0
          ? [
              [
                { x: shelf, y: top + 2 },
                { x: shelf, y: top + height - 2 },
              ],
              [
                { x: shelf, y: middle },
                { x: shelf + 12, y: middle },
              ],
              [{ x: shelf + 12, y: middle }, anchor],
            ]
          : [];
      return {
        dimension,
        text: words,
        textAt: { x: shelf - 7, y: y + pitch / 2 + 4 },
        turned: 0,
        anchor: "end",
        box: { x: shelf - 11 - width, y, width: width + 8, height: pitch },
        lines: leader,
        arrows: [],
      };
    });
  });
}

/**
 * Places every dimension of the groups asked for on a page of `style.width` × `style.height`.
 *
 * @returns  in page units, y down; dimensions whose words would fall off the page are left out
 */
export function layDimensions(setting: Setting): PlacedDimension[] {
  const { drawing, projection, style } = setting;
  const shown = drawing.dimensions.filter(({ group }) => style.groups.includes(group));
  const spans = shown.filter(({ kind }) => kind === "span");
  const lowest = { coil: Number.POSITIVE_INFINITY, room: 0 };
  for (const { group, side, from } of spans) {
    if (side === "below") lowest[group] = Math.min(lowest[group], from.z);
  }
  const coilRight = toPage({ x: drawing.coilBox.right, z: 0 }, projection).x;
  const coilTop = toPage({ x: 0, z: drawing.coilBox.top }, projection).y;
  const placed: PlacedDimension[] = [];
  const taken: PageBox[] = wallBoxes(setting);
  const keep = (one: PlacedDimension) => {
    taken.push(one.box, ...one.lines.map(boxOfLine));
    placed.push(one);
  };
  for (const dimension of spans) {
    const from = toPage(dimension.from, projection);
    if (isVertical(dimension)) {
      const nearest =
        dimension.group === "coil" ? coilRight + style.row : from.x + 0.3 * projection.scale + style.row / 2;
      const laneX = dimension.side === "between" ? from.x : nearest + dimension.rank * style.row;
      keep(placeVertical(dimension, laneX, setting, taken));
    } else {
      const rowY =
        dimension.side === "between"
          ? from.y
          : dimension.side === "above"
            ? coilTop - style.row * (dimension.rank + 0.8)
            : toPage({ x: 0, z: lowest[dimension.group] }, projection).y + style.row * (dimension.rank + 1);
      keep(placeHorizontal(dimension, rowY, setting, taken));
    }
  }
  if (style.notes === "leaders")
    placed.push(
      ...placeNotes(
        shown.filter(({ kind }) => kind === "note"),
        setting,
      ),
    );
  return placed
    .filter(
      ({ box }) =>
        box.x > -2 && box.y > -2 && box.x + box.width < style.width + 2 && box.y + box.height < style.height + 2,
    )
    .map((one) => withGrip(one, projection));
}

function withGrip(one: PlacedDimension, projection: Projection): PlacedDimension {
  const { grip } = one.dimension;
  return grip === undefined ? one : { ...one, gripAt: toPage(grip.at, projection) };
}
