/** Where the numbers of contours may stand: on their line, off the words that are there already. */
import type { LabelledContour } from "./drawing-contours.ts";
import { overlaps, type PageBox, type PagePoint } from "./drawing-layout.ts";
import { type Projection, toPage } from "./drawing-path.ts";

export interface PlacedLabel {
  readonly level: number;
  readonly at: PagePoint;
  readonly text: string;
  readonly box: PageBox;
}

interface LabelRequest {
  readonly contours: readonly LabelledContour[];
  readonly projection: Projection;
  readonly page: { readonly width: number; readonly height: number };
  readonly taken: readonly PageBox[];
  readonly character: number;
  readonly textOf: (level: number) => string;
}

const line = 14;
const inset = 16;
/** Where along its line a number is tried first, then outward to both ends: neighbours begin apart. */
const middles = [0.5, 0.66, 0.4, 0.58, 0.34];

/** At most one label a contour; a contour without a free place goes without. */
export function placeLabels({ contours, projection, page, taken, character, textOf }: LabelRequest): PlacedLabel[] {
  const boxes = [...taken];
  const labels: PlacedLabel[] = [];
  for (const [index, { level, longest }] of contours.entries()) {
    const middle = middles[index % middles.length] ?? 0.5;
    const text = textOf(level);
    const width = text.length * character + 6;
    const count = Math.min(24, longest.length);
    for (let i = 0; i < count; i++) {
      const share = middle + (i % 2 === 0 ? 1 : -1) * (Math.ceil(i / 2) / count);
      const point = longest[Math.min(longest.length - 1, Math.max(0, Math.round(share * (longest.length - 1))))];
      if (point === undefined) continue;
      const at = toPage(point, projection);
      const box = { x: at.x - width / 2, y: at.y - line / 2, width, height: line };
      const inside =
        box.x > inset && box.y > inset && box.x + width < page.width - inset && box.y + line < page.height - inset;
      if (!inside || boxes.some((other) => overlaps(box, other))) continue;
      boxes.push(box);
      labels.push({ level, at, text, box });
      break;
    }
  }
  return labels;
}
