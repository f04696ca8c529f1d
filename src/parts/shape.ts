/** Meridian shapes: pieces of curves in the half-plane r ≥ 0, z up, from which every conductor of revolution is made. */
import type { Metre, Radian } from "../units/si.ts";

export interface Point {
  readonly r: Metre;
  readonly z: Metre;
}

/** A straight piece, or an arc of a circle: centre + radius·(cos, sin) for angles running `from` → `to`. A full turn closes on itself. */
export type Piece =
  | { readonly kind: "line"; readonly from: Point; readonly to: Point }
  | {
      readonly kind: "arc";
      readonly centre: Point;
      readonly radius: Metre;
      readonly from: Radian;
      readonly to: Radian;
    };

/** Pieces joined end to end. It begins and ends on the axis, or closes, or is a thin sheet with two free edges. */
export type Outline = readonly Piece[];

/** One circular filament; `share` is the part of a full turn that carries the current (1, or less for the last turn at a tap). */
export interface Ring {
  readonly radius: Metre;
  readonly height: Metre;
  readonly share: number;
}

/** A straight piece between two points. */
export function line({ from, to }: { from: Point; to: Point }): Piece {
  return { kind: "line", from, to };
}

/** A full circle, run anticlockwise in (r, z) from its outermost point: the inside lies on the left, as in every outline here. */
export function circle({ centre, radius }: { centre: Point; radius: Metre }): Piece {
  return { kind: "arc", centre, radius, from: 0, to: 2 * Math.PI };
}

/** First and last point of a piece. */
export function endsOf(piece: Piece): { readonly from: Point; readonly to: Point } {
  if (piece.kind === "line") return { from: piece.from, to: piece.to };
  const at = (angle: Radian): Point => ({
    r: piece.centre.r + piece.radius * Math.cos(angle),
    z: piece.centre.z + piece.radius * Math.sin(angle),
  });
  return { from: at(piece.from), to: at(piece.to) };
}

/** Greatest and least r and z that an outline reaches [m]. */
export function boundsOf(outline: Outline): { innerR: Metre; outerR: Metre; bottomZ: Metre; topZ: Metre } {
  const points: Point[] = [];
  for (const piece of outline) {
    const { from, to } = endsOf(piece);
    points.push(from, to);
    if (piece.kind === "arc") {
      const [low, high] = piece.from < piece.to ? [piece.from, piece.to] : [piece.to, piece.from];
      // The extremes of an arc are where it passes a multiple of a quarter turn.
      for (let quarter = Math.ceil(low / (Math.PI / 2)); quarter * (Math.PI / 2) <= high; quarter++) {
        const [cos, sin] = quarterTurns[((quarter % 4) + 4) % 4] as readonly [number, number];
        points.push({ r: piece.centre.r + piece.radius * cos, z: piece.centre.z + piece.radius * sin });
      }
    }
  }
  return {
    innerR: Math.min(...points.map((p) => p.r)),
    outerR: Math.max(...points.map((p) => p.r)),
    bottomZ: Math.min(...points.map((p) => p.z)),
    topZ: Math.max(...points.map((p) => p.z)),
  };
}

const quarterTurns = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;
