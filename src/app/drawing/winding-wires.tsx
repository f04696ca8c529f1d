/** The winding's own wires, drawn one by one where they are wide enough to see, else as a texture. */

import type { WindingDetail } from "../../views/drawing.ts";
import type { PageSize } from "../../views/drawing-fit.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";
import { SeenOnly } from "./seen-only.tsx";

const visibleFrom = 3.2;
const mostWires = 900;

interface Properties {
  readonly winding: WindingDetail;
  readonly projection: Projection;
  readonly size: PageSize;
}

/** Cross-sections of the turns that are on the page. */
function wires({ winding, projection, size }: Properties) {
  const { pitch, turns, base, radius } = winding;
  const low = (projection.originY - size.height) / projection.scale;
  const high = projection.originY / projection.scale;
  const first = Math.max(0, Math.floor((low - base) / pitch) - 1);
  const last = Math.min(Math.ceil(turns) - 1, Math.ceil((high - base) / pitch) + 1);
  if (last - first > mostWires) return [];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const z = base + (first + i) * pitch;
    return {
      turn: first + i,
      right: toPage({ x: radius, z }, projection),
      left: toPage({ x: -radius, z: z - pitch / 2 }, projection),
    };
  });
}

export function WindingWires(properties: Properties) {
  const { winding, projection } = properties;
  if (winding.pitch * projection.scale < visibleFrom) return null;
  const copper = (winding.bare / 2) * projection.scale;
  const cover = (winding.overall / 2) * projection.scale;
  return (
    <SeenOnly class="wires">
      {wires(properties).map(({ turn, right, left }) => (
        <g key={turn}>
          {[right, left].map(({ x, y }) => (
            <g key={x}>
              <circle class="cover" cx={x.toFixed(1)} cy={y.toFixed(1)} r={cover} />
              <circle class="copper" cx={x.toFixed(1)} cy={y.toFixed(1)} r={copper} />
            </g>
          ))}
        </g>
      ))}
    </SeenOnly>
  );
}
