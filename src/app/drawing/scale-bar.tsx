/** A bar of a round length: the drawing's scale that survives every screen. */

import { formatQuantity } from "../../units/index.ts";
import type { PageSize } from "../../views/drawing-fit.ts";
import { ticks } from "../../views/plots-ticks.ts";
import { SeenOnly } from "./seen-only.tsx";

export function ScaleBar({ scale, size }: { readonly scale: number; readonly size: PageSize }) {
  const length = ticks({ low: 0, high: 110 / scale, wanted: 2 })[1] ?? 0.1;
  const width = length * scale;
  const y = size.height - 26;
  const parts = [0, 1, 2, 3];
  return (
    <SeenOnly class="scale-bar">
      {parts.map((part) => (
        <rect
          key={part}
          class={part % 2 === 0 ? "dark" : "light"}
          x={28 + (part * width) / 4}
          y={y - 4}
          width={width / 4}
          height={4}
        />
      ))}
      <text x={28 + width + 8} y={y + 1}>
        {formatQuantity(length, "m", { trim: true, digits: 2 })}
      </text>
    </SeenOnly>
  );
}
