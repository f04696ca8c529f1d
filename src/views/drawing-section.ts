/** Meridian outlines to strokes of the section plane: both halves. */
import type { Outline, Piece } from "../parts/shape.ts";
import type { Stroke } from "./drawing.ts";

const right = (piece: Piece): Stroke => {
  if (piece.kind === "line") {
    const points = [piece.from, piece.to].map(({ r, z }) => ({ x: r, z }));
    return { kind: "polyline", points, closed: false };
  }
  const centre = { x: piece.centre.r, z: piece.centre.z };
  return {
    kind: "arc",
    centre,
    radius: piece.radius,
    from: Math.min(piece.from, piece.to),
    to: Math.max(piece.from, piece.to),
  };
};

/** The same stroke on the other side of the axis. */
export const mirrored = (stroke: Stroke): Stroke =>
  stroke.kind === "polyline"
    ? { ...stroke, points: stroke.points.map(({ x, z }) => ({ x: -x, z })) }
    : {
        ...stroke,
        centre: { x: -stroke.centre.x, z: stroke.centre.z },
        from: Math.PI - stroke.to,
        to: Math.PI - stroke.from,
      };

/** A body of revolution cut through its axis: its meridian and the mirror of it. */
export function sectionOf(outline: Outline): Stroke[] {
  const half = outline.map(right);
  return [...half, ...half.map(mirrored)];
}
