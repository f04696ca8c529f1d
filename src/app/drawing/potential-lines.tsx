/** Lines of equal potential, each with the volts it means at the chosen top voltage. */
import { useMemo } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { contourLines } from "../../views/drawing-contours.ts";
import { placeLabels } from "../../views/drawing-labels.ts";
import { pathText } from "../../views/drawing-path.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { topVoltage } from "../state/view.ts";
import { ContourLabels } from "./contour-labels.tsx";
import type { LayerPage } from "./layer-page.ts";
import { SeenOnly } from "./seen-only.tsx";

const levels = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

export function PotentialLines({ map, page }: { readonly map: FieldMap; readonly page: LayerPage }) {
  const contours = useMemo(() => contourLines(map, map.potential, levels), [map]);
  const textOf = (level: number) => formatQuantity(level * topVoltage.value, "V", { digits: 2, trim: true });
  return (
    <SeenOnly class="potential">
      {contours.map(({ level, strokes }) => (
        <path key={level} d={pathText(strokes, page.projection)} />
      ))}
      <ContourLabels labels={placeLabels({ ...page, contours, textOf })} />
    </SeenOnly>
  );
}
