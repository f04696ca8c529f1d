/** What is painted over the section: the layers that are switched on. */
import type { Drawing } from "../../views/drawing.ts";
import type { Projection } from "../../views/drawing-path.ts";
import { behind, solution } from "../state/answers.ts";
import { text } from "../state/document.ts";
import { topVoltage } from "../state/top-voltage.ts";
import { layers } from "../state/view.ts";
import { ContourNumbers } from "./contour-numbers.tsx";
import { FieldBands } from "./field-bands.tsx";
import { mapped } from "./field-maps.ts";
import type { LayerPage } from "./layer-page.ts";
import { PeakMarks } from "./peak-marks.tsx";
import { placePeaks } from "./peak-places.ts";
import { PotentialLines } from "./potential-lines.tsx";
import { WindingProfile } from "./winding-profile.tsx";

/** Under the outlines: bands of field. */
export function LayersBelow({ projection }: { readonly projection: Projection }) {
  const map = mapped.value?.map;
  if (map === undefined || !layers.value.has("field")) return null;
  return (
    <g data-behind={mapped.value?.text !== text.value || undefined}>
      <FieldBands map={map} projection={projection} />
    </g>
  );
}

/** Over the outlines: lines of potential, the winding's voltage, peaks, and the numbers of all of them. */
export function LayersAbove({ drawing, page }: { readonly drawing: Drawing; readonly page: LayerPage }) {
  const shown = layers.value;
  const map = shown.has("potential") || shown.has("field") ? mapped.value?.map : undefined;
  const mode = solution.value?.modes[0];
  const peaks = shown.has("peaks") ? placePeaks(solution.value?.peaks ?? [], topVoltage.value, page.projection) : [];
  const taken = [...page.taken, ...peaks.map(({ box }) => box)];
  return (
    <g data-behind={behind.value || undefined}>
      {map && shown.has("potential") && <PotentialLines map={map} projection={page.projection} />}
      {mode && shown.has("winding") && (
        <WindingProfile mode={mode} winding={drawing.winding} projection={page.projection} />
      )}
      {map && <ContourNumbers map={map} page={{ ...page, taken }} />}
      <PeakMarks peaks={peaks} />
    </g>
  );
}
