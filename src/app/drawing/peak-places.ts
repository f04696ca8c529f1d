/** Where peaks and their numbers stand on the page. */
import { formatQuantity } from "../../units/index.ts";
import type { PageBox, PagePoint } from "../../views/drawing-layout.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";
import type { PeakField } from "../../workbench/contract.ts";

export interface PlacedPeak {
  readonly key: string;
  readonly at: PagePoint;
  readonly words: string;
  readonly box: PageBox;
}

/** Peaks at a top voltage [V]. */
export function placePeaks(peaks: readonly PeakField[], voltage: number, projection: Projection): PlacedPeak[] {
  return peaks.map(({ part, radius, height, fieldPerVolt }) => {
    const at = toPage({ x: radius, z: height }, projection);
    const words = formatQuantity(fieldPerVolt * voltage, "V/m", { digits: 3, trim: true });
    const box = { x: at.x - 9, y: at.y - 18, width: 26 + words.length * 6.7, height: 27 };
    return { key: `${part} ${radius} ${height}`, at, words, box };
  });
}
