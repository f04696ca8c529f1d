/** Where words stand on a page, measured with the advances of the fonts. */

import type { Page, TextItem } from "../../../src/views/sheets/index.ts";
import { widthOf } from "../../../src/views/sheets/measure.ts";

export interface WordBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** From the height of the capitals to a little under the base line: what ink may fill. */
export function wordBox(item: TextItem): WordBox {
  const wide = widthOf(item.text, item);
  const back = item.anchor === "middle" ? wide / 2 : item.anchor === "end" ? wide : 0;
  return {
    text: item.text,
    left: item.x - back,
    right: item.x - back + wide,
    top: item.y - 0.76 * item.size,
    bottom: item.y + 0.2 * item.size,
  };
}

export const wordsOf = (page: Page): readonly TextItem[] => page.items.filter((item) => item.kind === "text");

/** Pairs of words that share ink, by more than a twentieth of a millimetre. */
export function overlaps(page: Page): string[] {
  const boxes = wordsOf(page).map(wordBox);
  const slack = 0.05e-3;
  return boxes.flatMap((a, n) =>
    boxes
      .slice(n + 1)
      .filter(
        (b) =>
          a.left + slack < b.right && b.left + slack < a.right && a.top + slack < b.bottom && b.top + slack < a.bottom,
      )
      .map((b) => `${a.text} × ${b.text}`),
  );
}
