/** Border and title block, the same on every sheet. */
import type { Metre } from "../../units/si.ts";
import { fitted, wrapped } from "./measure.ts";
import { type Face, type Item, type Page, polyline, rectangle, weight } from "./page.ts";
import { type Format, titleBlockHeight } from "./paper.ts";
import type { SheetSetting, SheetSubject } from "./sheet.ts";

const mm = 1e-3;

interface Titles {
  readonly subject: SheetSubject;
  readonly setting: SheetSetting;
  readonly format: Format;
  readonly title: string;
  /** Such as `1 : 1`; a dash where nothing is drawn to scale. */
  readonly scale: string;
}

/** Puts the bodies of a sheet into their frames and numbers them. */
export function framed(bodies: readonly (readonly Item[])[], titles: Titles): readonly Page[] {
  return bodies.map((items, n) => ({
    width: titles.format.width,
    height: titles.format.height,
    title: `${titles.subject.coil.name}, ${titles.title}, page ${n + 1} of ${bodies.length}`,
    items: [...items, ...border(titles.format), ...titleBlock(titles, n + 1, bodies.length)],
  }));
}

/** A border with a mark at the middle of each side, to fold and to register by. */
function border({ frame: { x, y, width, height } }: Format): readonly Item[] {
  const tick = 2.5 * mm;
  const [middle, centre] = [x + width / 2, y + height / 2];
  const ticks = [
    [middle, y, middle, y - tick],
    [middle, y + height, middle, y + height + tick],
    [x, centre, x - tick, centre],
    [x + width, centre, x + width + tick, centre],
  ] as const;
  return [
    { kind: "path", segments: rectangle({ x, y, width, height }), width: weight.strong, tone: "ink", role: "border" },
    ...ticks.map(
      ([x1, y1, x2, y2]): Item => ({
        kind: "path",
        segments: polyline([
          { x: x1, y: y1 },
          { x: x2, y: y2 },
        ]),
        width: weight.line,
      }),
    ),
  ];
}

function titleBlock({ subject, setting, format, title, scale }: Titles, page: number, pages: number): readonly Item[] {
  const { x, y: above, width, height } = format.frame;
  const y = above + height - titleBlockHeight;
  const cells = [
    { label: "coil", text: subject.coil.name || "without a name", share: 0.29 },
    { label: "sheet", text: title, share: 0.27 },
    { label: "file", text: subject.fileName, share: 0.14 },
    { label: "scale", text: scale, share: 0.07 },
    { label: "lengths", text: setting.lengths === "mm" ? "mm" : "inch", share: 0.07 },
    { label: "date", text: setting.date, share: 0.1 },
    { label: "page", text: `${page} of ${pages}`, share: 0.06 },
  ];
  const items: Item[] = [
    { kind: "path", segments: rectangle({ x, y, width, height: titleBlockHeight }), width: weight.line, fill: "paper" },
  ];
  let left = x;
  for (const [n, { label, text, share }] of cells.entries()) {
    const wide = share * width;
    const face = n === 0 ? "bold" : "regular";
    const lines = cellLines(text, { width: wide - 3 * mm, face });
    if (n > 0)
      items.push({
        kind: "path",
        segments: polyline([
          { x: left, y },
          { x: left, y: y + titleBlockHeight },
        ]),
        width: weight.thin,
        tone: "rule",
      });
    items.push(
      {
        kind: "text",
        text: label,
        x: left + 1.5 * mm,
        y: y + 4 * mm,
        size: 2.1 * mm,
        face: "regular",
        tone: "soft",
        anchor: "start",
      },
      ...lines.map(
        ({ text: line, size }, k): Item => ({
          kind: "text",
          text: line,
          size,
          x: left + 1.5 * mm,
          y: y + (lines.length === 1 ? 10 : 8.2 + 3.1 * k) * mm,
          face,
          tone: "ink",
          anchor: "start",
        }),
      ),
    );
    left += wide;
  }
  return items;
}

/** One line, or two smaller ones where it is too long. */
function cellLines(
  text: string,
  { width, face }: { width: Metre; face: Face },
): readonly { readonly text: string; readonly size: Metre }[] {
  const breaks = text.length > 12;
  const one = fitted(text, { width, size: 3.3 * mm, least: (breaks ? 2.5 : 1.9) * mm, face });
  if (!breaks || !one.text.endsWith("…")) return [one];
  const size = 2.1 * mm;
  const [first = "", ...others] = wrapped(text, { width, size, face });
  return [{ text: first, size }, fitted(others.join(" "), { width, size, least: size, face })];
}
