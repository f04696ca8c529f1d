/** Lines of equal potential. */
import { type Projection, pathText } from "../../views/drawing-path.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { potentialLines } from "./field-contours.ts";
import { SeenOnly } from "./seen-only.tsx";

interface Properties {
  readonly map: FieldMap;
  readonly projection: Projection;
}

export function PotentialLines({ map, projection }: Properties) {
  return (
    <SeenOnly class="potential">
      {potentialLines(map, 1).map(({ level, strokes }) => (
        <path key={level} d={pathText(strokes, projection)} />
      ))}
    </SeenOnly>
  );
}
