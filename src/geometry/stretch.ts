/** A stretch: a smooth part of one piece of a meridian, with how it ends. */
import type { Piece, Point } from "../parts/shape.ts";

/** How a stretch ends: at a free edge or corner, where the charge density is singular, or smoothly (on the axis, or joined on). */
export type End = "edge" | "smooth";

export interface Stretch {
  readonly piece: Piece;
  /** The part of the piece, 0 ≤ from < to ≤ 1. */
  readonly from: number;
  readonly to: number;
  readonly starts: End;
  readonly ends: End;
}

/** Whether the piece is a whole circle. */
export function isFullTurn(piece: Piece): boolean {
  return piece.kind === "arc" && Math.abs(Math.abs(piece.to - piece.from) - 2 * Math.PI) < 1e-9;
}

/** Arc length of a stretch [m]. */
export function stretchLength({ piece, from, to }: Stretch): number {
  const whole =
    piece.kind === "line"
      ? Math.hypot(piece.to.r - piece.from.r, piece.to.z - piece.from.z)
      : piece.radius * Math.abs(piece.to - piece.from);
  return whole * (to - from);
}

/** A point on the plain piece, by its share of length. */
export function pointOn(piece: Piece, share: number): Point {
  if (piece.kind === "line") {
    return {
      r: piece.from.r + share * (piece.to.r - piece.from.r),
      z: piece.from.z + share * (piece.to.z - piece.from.z),
    };
  }
  const angle = piece.from + share * (piece.to - piece.from);
  return { r: piece.centre.r + piece.radius * Math.cos(angle), z: piece.centre.z + piece.radius * Math.sin(angle) };
}
