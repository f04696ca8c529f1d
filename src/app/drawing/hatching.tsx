/** The cut edges of the room: earth under the ground plane, masonry beyond ceiling and wall. */
import type { Shape, Stroke } from "../../views/drawing.ts";
import type { PageSize } from "../../views/drawing-fit.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";

const depth = 9;
const gap = 9;

interface HatchSetting {
  readonly projection: Projection;
  /** Which side of the line is outside: 1 to the right of its way, −1 to the left. */
  readonly outward: number;
  readonly page: PageSize;
}

/** Short slanted strokes on the outer side of a straight edge. */
function ticksAlong(stroke: Stroke, { projection, outward, page }: HatchSetting): string {
  if (stroke.kind !== "polyline") return "";
  const [from, to] = [stroke.points[0], stroke.points[1]].map((p) =>
    p === undefined ? undefined : toPage(p, projection),
  );
  if (from === undefined || to === undefined) return "";
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const ux = (to.x - from.x) / (length || 1);
  const uy = (to.y - from.y) / (length || 1);
  // only what is on the page: a wall seen from close by has thousands
  const reach =
    Math.abs(ux) > 0.5 ? [-from.x / ux, (page.width - from.x) / ux] : [-from.y / uy, (page.height - from.y) / uy];
  const first = Math.max(1, Math.floor(Math.min(...reach) / gap));
  const last = Math.floor(Math.min(length, Math.max(...reach) + gap) / gap);
  let path = "";
  for (let i = first; i <= last; i++) {
    const x = from.x + ux * gap * i;
    const y = from.y + uy * gap * i;
    const [dx, dy] = [(-ux + -uy * outward) * depth * 0.7, (-uy + ux * outward) * depth * 0.7];
    path += `M${x.toFixed(1)} ${y.toFixed(1)}l${dx.toFixed(1)} ${dy.toFixed(1)}`;
  }
  return path;
}

interface Properties {
  readonly shapes: readonly Shape[];
  readonly projection: Projection;
  readonly page: PageSize;
}

export function Hatching({ shapes, projection, page }: Properties) {
  const cut = shapes.filter(({ material }) => material === "ground" || material === "ceiling" || material === "wall");
  return (
    <path
      class="hatching"
      d={cut
        .flatMap(({ material, strokes }) =>
          strokes.map((stroke) => {
            const first = stroke.kind === "polyline" ? stroke.points[0] : undefined;
            const outward = material === "ceiling" ? -1 : material === "ground" ? 1 : (first?.x ?? 0) < 0 ? -1 : 1;
            return ticksAlong(stroke, { projection, outward, page });
          }),
        )
        .join("")}
    />
  );
}
