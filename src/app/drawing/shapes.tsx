/** The outlines, back to front, each with the line of its material. */

import type { Shape } from "../../views/drawing.ts";
import { type Projection, pathText } from "../../views/drawing-path.ts";
import { SeenOnly } from "./seen-only.tsx";

const Outline = ({ shape, projection }: { readonly shape: Shape; readonly projection: Projection }) => (
  <path class={`material ${shape.material}`} data-shape={shape.id} d={pathText(shape.strokes, projection)} />
);

export function Shapes({ shapes, projection }: { readonly shapes: readonly Shape[]; readonly projection: Projection }) {
  return (
    <SeenOnly>
      {shapes.map((shape) => (
        <Outline key={shape.id} shape={shape} projection={projection} />
      ))}
    </SeenOnly>
  );
}
