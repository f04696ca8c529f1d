/** The check of the scale: a line of 100 mm, and rules in millimetres and inches. */
import type { Metre } from "../../units/si.ts";
import { type At, type Item, polyline, weight } from "./page.ts";

const mm = 1e-3;
const inch = 25.4 * mm;
/** Of the band that the check takes. */
export const rulerHeight: Metre = 21 * mm;

export const checkWords =
  "Print at 100 %, not fitted to the page. Then lay a steel rule on the line: it must measure 100.0 mm (3.937 in) between its end strokes. If it is off by more than 0.3 mm, do not drill from this print.";

/** Rules and check line with their upper left corner at a point; 106 mm wide. */
export function rulers({ x, y }: At): readonly Item[] {
  const items: Item[] = [];
  const stroke = (from: At, to: At, width: Metre = weight.thin, role?: string) =>
    items.push({ kind: "path", segments: polyline([from, to]), width, tone: "ink", ...(role ? { role } : {}) });
  const word = (text: string, at: At) =>
    items.push({ kind: "text", text, ...at, size: 2 * mm, face: "regular", tone: "soft", anchor: "middle" });
  const top = y + 3.2 * mm;
  stroke({ x, y: top }, { x: x + 100 * mm, y: top }, weight.line, "check-line");
  for (const end of [0, 100])
    stroke({ x: x + end * mm, y: top - 2 * mm }, { x: x + end * mm, y: top + 2 * mm }, weight.line);
  word("check line, 100 mm", { x: x + 50 * mm, y: top + 2.6 * mm });
  const metric = y + 8.2 * mm;
  stroke({ x, y: metric }, { x: x + 100 * mm, y: metric });
  for (let n = 0; n <= 100; n++) {
    const tall = n % 10 === 0 ? 3 : n % 5 === 0 ? 2.2 : 1.4;
    stroke({ x: x + n * mm, y: metric }, { x: x + n * mm, y: metric + tall * mm }, weight.fine);
    if (n % 10 === 0 && n < 100) word(String(n), { x: x + n * mm, y: metric + 5.2 * mm });
  }
  word("100 mm", { x: x + 100 * mm, y: metric + 5.2 * mm });
  const imperial = y + 15 * mm;
  stroke({ x, y: imperial }, { x: x + 4 * inch, y: imperial });
  for (let n = 0; n <= 64; n++) {
    const tall = n % 16 === 0 ? 3 : n % 8 === 0 ? 2.4 : n % 4 === 0 ? 1.8 : 1.2;
    stroke({ x: x + (n * inch) / 16, y: imperial }, { x: x + (n * inch) / 16, y: imperial + tall * mm }, weight.fine);
    if (n % 16 === 0 && n < 64) word(String(n / 16), { x: x + (n * inch) / 16, y: imperial + 5.2 * mm });
  }
  word("4 in", { x: x + 4 * inch, y: imperial + 5.2 * mm });
  return items;
}
