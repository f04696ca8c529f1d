/** Bands of field strength with round limits, darker where the field is greater, and the limits as lines with their numbers. */

import { useMemo } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { contourAreas, contourLines, roundLevels } from "../../views/drawing-contours.ts";
import { type Projection, pathText, toPage } from "../../views/drawing-path.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { topVoltage } from "../state/view.ts";
import { SeenOnly } from "./seen-only.tsx";

const bands = 6;

export function FieldBands({ map, projection }: { readonly map: FieldMap; readonly projection: Projection }) {
  // levels that are round at the chosen top voltage: those are the numbers somebody reads
  const voltage = topVoltage.value;
  const { areas, lines } = useMemo(() => {
    const levels = roundLevels(
      map.field.map((field) => field * voltage),
      bands,
    ).map((level) => level / voltage);
    return { areas: contourAreas(map, map.field, levels), lines: contourLines(map, map.field, levels) };
  }, [map, voltage]);
  return (
    <SeenOnly class="field">
      {areas.map(({ level, strokes }) => (
        <path key={level} class="band" fill-rule="evenodd" d={pathText(strokes, projection)} />
      ))}
      {lines.map(({ level, strokes, label }) => {
        const at = label && toPage(label, projection);
        return (
          <g key={level}>
            <path class="limit" d={pathText(strokes, projection)} />
            {at && (
              <text x={at.x} y={at.y} dy="0.32em" text-anchor="middle">
                {formatQuantity(level * voltage, "V/m", { digits: 2, trim: true })}
              </text>
            )}
          </g>
        );
      })}
    </SeenOnly>
  );
}
