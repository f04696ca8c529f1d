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

const written = (p: PlanePoint, projection: Projection) => {
  const { x, y } = toPage(p, projection);
  return `${digits(x)} ${digits(y)}`;
};

interface Run {
  readonly start: string;
  readonly end: string;
  /** Everything after the move to the start. */
  readonly rest: string;
}

function arcRun({ centre, radius, from, to }: Stroke & { kind: "arc" }, projection: Projection): Run {
  const at = (angle: number) =>
    written({ x: centre.x + radius * Math.cos(angle), z: centre.z + radius * Math.sin(angle) }, projection);
  const r = digits(radius * projection.scale);
  const turn = to > from ? 0 : 1;
  // one SVG arc cannot close on itself: two halves always can
  const rest = [(from + to) / 2, to].map((angle) => `A${r} ${r} 0 0 ${turn} ${at(angle)}`).join("");
  return { start: at(from), end: at(to), rest };
}

function runOf(stroke: Stroke, projection: Projection): Run | undefined {
  if (stroke.kind === "arc") return arcRun(stroke, projection);
  const points = stroke.points.map((p) => written(p, projection));
  const [start, ...others] = points;
  if (start === undefined) return undefined;
  return {
    start,
    end: stroke.closed ? "" : (points.at(-1) ?? start),
    rest: `${others.map((p) => `L${p}`).join("")}${stroke.closed ? "Z" : ""}`,
  };
}

/** The `d` of an SVG path for the strokes, on the page that the projection describes. Strokes that meet end to end are one line. */
export function pathText(strokes: readonly Stroke[], projection: Projection): string {
  let path = "";
  let end = "";
  for (const stroke of strokes) {
    const run = runOf(stroke, projection);
    if (run === undefined) continue;
    path += `${run.start === end ? "" : `M${run.start}`}${run.rest}`;
    end = run.end;
  }
  return path;
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
