/** Strokes to SVG path text and to boxes. */
import type { Box, PlanePoint, Shape, Stroke } from "./drawing.ts";

/** Metres of the section plane to pixels (or millimetres) of the page, y down. */
export interface Projection {
  readonly scale: number;
  readonly originX: number;
  readonly originY: number;
}

/** Page position of a point. */
export const toPage = (p: PlanePoint, { scale, originX, originY }: Projection) => ({
  x: originX + p.x * scale,
  y: originY - p.z * scale,
});

/** Point of the section plane under a page position. */
export const toPlane = (p: { readonly x: number; readonly y: number }, { scale, originX, originY }: Projection) => ({
  x: (p.x - originX) / scale,
  z: (originY - p.y) / scale,
});

const digits = (v: number) => String(Math.round(v * 100) / 100);

function arcPath(stroke: Stroke & { kind: "arc" }, projection: Projection): string {
  const radius = stroke.radius * projection.scale;
  const at = (angle: number) =>
    toPage(
      {
        x: stroke.centre.x + stroke.radius * Math.cos(angle),
        z: stroke.centre.z + stroke.radius * Math.sin(angle),
      },
      projection,
    );
  const sweep = stroke.to - stroke.from;
  // one SVG arc cannot close on itself: two halves always can
  const stops = [stroke.from, stroke.from + sweep / 2, stroke.to].map(at);
  const first = stops[0] as { x: number; y: number };
  const rest = stops.slice(1);
  const r = digits(radius);
  return `M${digits(first.x)} ${digits(first.y)}${rest.map((p) => `A${r} ${r} 0 0 0 ${digits(p.x)} ${digits(p.y)}`).join("")}`;
}

/** The `d` of an SVG path for the strokes, on the page that the projection describes. */
export function pathText(strokes: readonly Stroke[], projection: Projection): string {
  return strokes
    .map((stroke) => {
      if (stroke.kind === "arc") return arcPath(stroke, projection);
      const points = stroke.points.map((p) => toPage(p, projection)).map((p) => `${digits(p.x)} ${digits(p.y)}`);
      return points.length === 0 ? "" : `M${points.join("L")}${stroke.closed ? "Z" : ""}`;
    })
    .join("");
}

/** The box around a shape; arcs count as whole circles. */
export function boxOf(shape: Shape): Box {
  return unite(
    shape.strokes.map((stroke) => {
      if (stroke.kind === "arc") {
        const { centre, radius } = stroke;
        return {
          left: centre.x - radius,
          right: centre.x + radius,
          bottom: centre.z - radius,
          top: centre.z + radius,
        };
      }
      const xs = stroke.points.map((p) => p.x);
      const zs = stroke.points.map((p) => p.z);
      return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...zs), top: Math.max(...zs) };
    }),
  );
}

/** The smallest box around all of them. */
export const unite = (boxes: readonly Box[]): Box => ({
  left: Math.min(...boxes.map((b) => b.left)),
  right: Math.max(...boxes.map((b) => b.right)),
  bottom: Math.min(...boxes.map((b) => b.bottom)),
  top: Math.max(...boxes.map((b) => b.top)),
});
