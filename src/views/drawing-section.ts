/** Meridian outlines to strokes of the section plane: both halves. */
import type { Outline, Piece } from "../parts/shape.ts";
import type { Stroke } from "./drawing.ts";

const right = (piece: Piece): Stroke =>
  piece.kind === "line"
    ? { kind: "polyline", points: [piece.from, piece.to].map(({ r, z }) => ({ x: r, z })), closed: false }
    : { ...piece, centre: { x: piece.centre.r, z: piece.centre.z } };

/** The same stroke on the other side of the axis, run the same way along the part. */
export const mirrored = (stroke: Stroke): Stroke =>
  stroke.kind === "polyline"
    ? { ...stroke, points: stroke.points.map(({ x, z }) => ({ x: -x, z })) }
    : {
        ...stroke,
        centre: { x: -stroke.centre.x, z: stroke.centre.z },
        from: Math.PI - stroke.from,
        to: Math.PI - stroke.to,
      };

const reversed = (stroke: Stroke): Stroke =>
  stroke.kind === "polyline"
    ? { ...stroke, points: stroke.points.toReversed() }
    : { ...stroke, from: stroke.to, to: stroke.from };

/** A body of revolution cut through its axis: up its meridian on the right and back down on the left, so that it can be filled. */
export function sectionOf(outline: Outline): Stroke[] {
  const half = outline.map(right);
  return [...half, ...half.map(mirrored).map(reversed).toReversed()];
}
