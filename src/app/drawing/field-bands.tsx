/** Bands of field strength with round limits, darker where the field is greater, and the limits as lines with their numbers. */
import { useMemo } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { contourAreas, contourLines, roundLevels } from "../../views/drawing-contours.ts";
import { placeLabels } from "../../views/drawing-labels.ts";
import { pathText } from "../../views/drawing-path.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { topVoltage } from "../state/view.ts";
import { ContourLabels } from "./contour-labels.tsx";
import type { LayerPage } from "./layer-page.ts";
import { SeenOnly } from "./seen-only.tsx";

const bands = 6;

export function FieldBands({ map, page }: { readonly map: FieldMap; readonly page: LayerPage }) {
  // levels that are round at the chosen top voltage: those are the numbers somebody reads
  const voltage = topVoltage.value;
  const { areas, contours } = useMemo(() => {
    const levels = roundLevels(
      map.field.map((field) => field * voltage),
      bands,
    ).map((level) => level / voltage);
    return { areas: contourAreas(map, map.field, levels), contours: contourLines(map, map.field, levels) };
  }, [map, voltage]);
  const textOf = (level: number) => formatQuantity(level * voltage, "V/m", { digits: 2, trim: true });
  return (
    <SeenOnly class="field">
      {areas.map(({ level, strokes }) => (
        <path key={level} class="band" fill-rule="evenodd" d={pathText(strokes, page.projection)} />
      ))}
      {contours.map(({ level, strokes }) => (
        <path key={level} class="limit" d={pathText(strokes, page.projection)} />
      ))}
      <ContourLabels labels={placeLabels({ ...page, contours, textOf })} />
    </SeenOnly>
  );
}
