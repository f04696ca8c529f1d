/** What is painted over the section: the layers that are switched on. */
import type { Drawing } from "../../views/drawing.ts";
import { behind, solution } from "../state/answers.ts";
import { text } from "../state/document.ts";
import { layers } from "../state/view.ts";
import { FieldBands } from "./field-bands.tsx";
import { mapped } from "./field-maps.ts";
import type { LayerPage } from "./layer-page.ts";
import { PeakMarks } from "./peak-marks.tsx";
import { PotentialLines } from "./potential-lines.tsx";
import { WindingProfile } from "./winding-profile.tsx";

interface Properties {
  readonly drawing: Drawing;
  readonly page: LayerPage;
}

/** Under the outlines: bands of field. */
export function LayersBelow({ page }: Pick<Properties, "page">) {
  const map = mapped.value?.map;
  if (map === undefined || !layers.value.has("field")) return null;
  return (
    <g data-behind={mapped.value?.text !== text.value || undefined}>
      <FieldBands map={map} page={page} />
    </g>
  );
}

/** Over the outlines: lines of potential, the winding's voltage, peaks. */
export function LayersAbove({ drawing, page }: Properties) {
  const map = mapped.value?.map;
  const mode = solution.value?.modes[0];
  const shown = layers.value;
  return (
    <g data-behind={behind.value || undefined}>
      {map && shown.has("potential") && <PotentialLines map={map} page={page} />}
      {mode && shown.has("winding") && (
        <WindingProfile mode={mode} winding={drawing.winding} projection={page.projection} />
      )}
      {solution.value && shown.has("peaks") && <PeakMarks peaks={solution.value.peaks} projection={page.projection} />}
    </g>
  );
}
