/** Meridian shapes: pieces of curves in the half-plane r ≥ 0, z up, from which every conductor of revolution is made. */
import type { Metre, Radian } from "../units/si.ts";

export interface Point { readonly r: Metre; readonly z: Metre }

/** A straight piece, or an arc of a circle: centre + radius·(cos, sin) for angles running `from` → `to`. A full turn closes on itself. */
export type Piece =
  | { readonly kind: "line"; readonly from: Point; readonly to: Point }
  | { readonly kind: "arc"; readonly centre: Point; readonly radius: Metre; readonly from: Radian; readonly to: Radian };

/** Pieces joined end to end. It begins and ends on the axis, or closes, or is a thin sheet with two free edges. */
export type Outline = readonly Piece[];

/** One circular filament; `share` is the part of a full turn that carries the current (1, or less for the last turn at a tap). */
export interface Ring { readonly radius: Metre; readonly height: Metre; readonly share: number }
