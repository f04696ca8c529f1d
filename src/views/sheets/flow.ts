/** Words and tables down a page, and over to the next where it is full. */
import type { Metre } from "../../units/si.ts";
import { ascent, widthOf, wrapped } from "./measure.ts";
import { type Box, type Face, type Item, polyline, rectangle, type Tone, weight } from "./page.ts";

const mm = 1e-3;

export interface Column {
  readonly head: string;
  /** Part of the width. */
  readonly share: number;
  readonly align?: "start" | "end";
  readonly face?: Face;
}

interface Style {
  readonly size?: Metre;
  readonly face?: Face;
  readonly tone?: Tone;
  readonly indent?: Metre;
}

export const leading = 1.36;
export const textSize = { title: 5.2 * mm, heading: 3.7 * mm, text: 2.9 * mm, small: 2.4 * mm } as const;
const cellPad = 1.1 * mm;

export class Flow {
  readonly pages: Item[][] = [[]];
  /** Of the next line's upper edge. */
  y: Metre;
  readonly area: Box;

  constructor(area: Box) {
    this.area = area;
    this.y = area.y;
  }

  get page(): Item[] {
    return this.pages.at(-1) as Item[];
  }
  get bottom(): Metre {
    return this.area.y + this.area.height;
  }

  /** Begins another page where less than `height` is left. */
  ensure(height: Metre): boolean {
    if (this.y + height <= this.bottom + 1e-9 || this.y === this.area.y) return false;
    this.pages.push([]);
    this.y = this.area.y;
    return true;
  }

  gap(height: Metre): void {
    if (this.y > this.area.y) this.y += height;
  }

  /** A block drawn by hand, `height` tall: told where its upper edge is. */
  block(height: Metre, draw: (y: Metre) => readonly Item[]): void {
    this.ensure(height);
    this.page.push(...draw(this.y));
    this.y += height;
  }

  title(text: string, says: string): void {
    this.words(text, { size: textSize.title, face: "bold" });
    this.gap(0.6 * mm);
    this.words(says, { tone: "soft" });
    this.gap(3 * mm);
  }

  heading(text: string, room: Metre = 14 * mm): void {
    this.gap(3.4 * mm);
    this.ensure(room);
    this.words(text, { size: textSize.heading, face: "bold", tone: "guide" });
    this.gap(0.8 * mm);
  }

  words(text: string, { size = textSize.text, face = "regular", tone = "ink", indent = 0 }: Style = {}): void {
    for (const line of wrapped(text, { width: this.area.width - indent, size, face })) {
      this.ensure(size * leading);
      this.page.push(lineAt(line, { x: this.area.x + indent, y: this.y, size, face, tone }));
      this.y += size * leading;
    }
  }

  /** Lines with a mark before each: a stroke, a number, or a box to tick. */
  list(lines: readonly string[], { mark = "dash", ...style }: Style & { mark?: "dash" | "box" | "number" } = {}): void {
    const { size = textSize.text, tone = "ink", indent = 0 } = style;
    const hang = indent + (mark === "dash" ? 3.4 : 6) * mm;
    for (const [n, text] of lines.entries()) {
      const count = wrapped(text, { width: this.area.width - hang, size, face: style.face ?? "regular" }).length;
      this.ensure(Math.min(count, 4) * size * leading);
      const x = this.area.x + indent;
      if (mark === "box") {
        const side = size * 0.95;
        this.page.push({
          kind: "path",
          segments: rectangle({ x: x + 0.4 * mm, y: this.y + 0.1 * size, width: side, height: side }),
          width: weight.line,
          tone: "ink",
        });
      } else {
        const sign = mark === "dash" ? "–" : `${n + 1}`;
        this.page.push(lineAt(sign, { x, y: this.y, size, face: "regular", tone: mark === "dash" ? "soft" : tone }));
      }
      this.words(text, { ...style, indent: hang });
      this.gap(0.7 * mm);
    }
  }

  /** What must be read first: a bar at its side. */
  caution(lines: readonly string[], { tone = "stop" as Tone, face = "regular" as Face } = {}): void {
    const size = textSize.text;
    const inner = 4 * mm;
    const all = lines.map((line) => wrapped(line, { width: this.area.width - inner, size, face }));
    for (const group of all) {
      const height = group.length * size * leading + 0.8 * mm;
      this.ensure(height);
      this.page.push({
        kind: "path",
        segments: rectangle({ x: this.area.x, y: this.y, width: 1.1 * mm, height }),
        fill: tone,
      });
      this.words(group.join(" "), { size, face, indent: inner });
      this.y += 0.8 * mm;
    }
    this.gap(1.4 * mm);
  }

  /** A row of headings, repeated on each page, over rows of cells that wrap. */
  table(
    columns: readonly Column[],
    rows: readonly (readonly string[])[],
    { size = textSize.text, headed = true } = {},
  ): void {
    const head = () => {
      if (!headed) return;
      this.row(
        columns,
        columns.map((column) => column.head),
        { size: textSize.small, tone: "soft", ruled: weight.line },
      );
    };
    const first = rows[0];
    this.ensure(this.rowHeight(columns, first ?? [], size) + 8 * mm);
    head();
    for (const row of rows) {
      if (this.ensure(this.rowHeight(columns, row, size))) head();
      this.row(columns, row, { size, tone: "ink", ruled: weight.fine });
    }
    this.gap(1.5 * mm);
  }

  /** Of a table without headings. */
  tableHeight(columns: readonly Column[], rows: readonly (readonly string[])[], { size = textSize.text } = {}): Metre {
    return rows.reduce((sum, row) => sum + this.rowHeight(columns, row, size), 0);
  }

  private cellLines({ share, face = "regular" }: Column, text: string, size: Metre): readonly string[] {
    return wrapped(text, { width: share * this.area.width - 2 * cellPad, size, face });
  }

  private rowHeight(columns: readonly Column[], cells: readonly string[], size: Metre): Metre {
    const lines = columns.map((column, n) => this.cellLines(column, cells[n] ?? "", size).length);
    return Math.max(1, ...lines) * size * leading + 1.3 * mm;
  }

  private row(
    columns: readonly Column[],
    cells: readonly string[],
    { size, tone, ruled }: { size: Metre; tone: Tone; ruled: Metre },
  ): void {
    const height = this.rowHeight(columns, cells, size);
    let left = this.area.x;
    for (const [n, column] of columns.entries()) {
      const wide = column.share * this.area.width;
      const face = column.face ?? "regular";
      for (const [k, line] of this.cellLines(column, cells[n] ?? "", size).entries()) {
        const width = widthOf(line, { size, face });
        const x = column.align === "end" ? left + wide - cellPad - width : left + (n === 0 ? 0 : cellPad);
        this.page.push(lineAt(line, { x, y: this.y + 0.5 * mm + k * size * leading, size, face, tone }));
      }
      left += wide;
    }
    this.y += height;
    this.page.push({
      kind: "path",
      segments: polyline([
        { x: this.area.x, y: this.y },
        { x: left, y: this.y },
      ]),
      width: ruled,
      tone: ruled > weight.fine ? "rule" : "hair",
    });
  }
}

/** Words whose upper edge is at `y`. */
export const lineAt = (
  text: string,
  { x, y, size, face, tone }: { x: Metre; y: Metre; size: Metre; face: Face; tone: Tone },
): Item => ({ kind: "text", text, x, y: y + size * ascent, size, face, tone, anchor: "start" });
