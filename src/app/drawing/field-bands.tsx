/** Bands of field strength with round limits, darker where the field is greater. */
import { type Projection, pathText } from "../../views/drawing-path.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { topVoltage } from "../state/top-voltage.ts";
import { fieldAreas, fieldLines } from "./field-contours.ts";
import { SeenOnly } from "./seen-only.tsx";

interface Properties {
  readonly map: FieldMap;
  readonly projection: Projection;
}

export function FieldBands({ map, projection }: Properties) {
  return (
    <SeenOnly class="field">
      {fieldAreas(map, topVoltage.value).map(({ level, strokes }) => (
        <path key={level} class="band" fill-rule="evenodd" d={pathText(strokes, projection)} />
      ))}
      {fieldLines(map, topVoltage.value).map(({ level, strokes }) => (
        <path key={level} class="limit" d={pathText(strokes, projection)} />
      ))}
    </SeenOnly>
  );
}
