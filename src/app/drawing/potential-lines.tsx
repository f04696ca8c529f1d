/** Lines of equal potential, each with its part of the top voltage and the volts it means. */

import { useMemo } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { contourLines } from "../../views/drawing-contours.ts";
import { type Projection, pathText, toPage } from "../../views/drawing-path.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { topVoltage } from "../state/view.ts";
import { SeenOnly } from "./seen-only.tsx";

const levels = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

export function PotentialLines({ map, projection }: { readonly map: FieldMap; readonly projection: Projection }) {
  const lines = useMemo(() => contourLines(map, map.potential, levels), [map]);
  return (
    <SeenOnly class="potential">
      {lines.map(({ level, strokes, label }) => {
        const at = label && toPage(label, projection);
        return (
          <g key={level}>
            <path d={pathText(strokes, projection)} />
            {at && (
              <text x={at.x} y={at.y} dy="0.32em" text-anchor="middle">
                {formatQuantity(level * topVoltage.value, "V", { digits: 2, trim: true })}
              </text>
            )}
          </g>
        );
      })}
    </SeenOnly>
  );
}
