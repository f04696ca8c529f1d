/** Strokes of a drawing in metres as a path of a page. */
import type { PlanePoint, Stroke } from "../drawing.ts";
import { type At, arc, polyline, type Segment } from "./page.ts";

export interface Placing {
  readonly place: (at: PlanePoint) => At;
  /** Of the paper over the thing. */
  readonly scale: number;
}

function strokeSegments(stroke: Stroke, { place, scale }: Placing): readonly Segment[] {
  if (stroke.kind === "polyline") return polyline(stroke.points.map(place), stroke.closed);
  // angles run anticlockwise with z up, clockwise on the page
  return arc({ centre: place(stroke.centre), radius: stroke.radius * scale, from: -stroke.from, to: -stroke.to });
}

/** The pieces of a shape as one path: pieces that meet are joined. */
export function shapeSegments(strokes: readonly Stroke[], placing: Placing): readonly Segment[] {
  const segments: Segment[] = [];
  let end: At | undefined;
  for (const stroke of strokes) {
    const piece = strokeSegments(stroke, placing);
    const first = piece[0];
    const meets = end && first?.kind === "move" && Math.hypot(first.to.x - end.x, first.to.y - end.y) < 1e-6;
    segments.push(...(meets ? piece.slice(1) : piece));
    const last = piece.at(-1);
    end = last === undefined || last.kind === "close" ? undefined : last.to;
  }
  return segments;
}
