/** The coil in section, in its room, as plain data in metres: what the screen and the sheets both draw. */
import type { Coil } from "../description/coil.ts";
import type { Provenances } from "../description/provenance.ts";
import type { Metre } from "../units/si.ts";
import { coilDimensions } from "./drawing-coil-dimensions.ts";
import { coilShapes, windingOf } from "./drawing-coil-shapes.ts";
import { boxOf, unite } from "./drawing-path.ts";
import { roomDimensions, roomShapes } from "./drawing-room.ts";

/** A point of the section plane: x across from the axis (negative on the left half), z up from the ground plane. */
export interface PlanePoint {
  readonly x: Metre;
  readonly z: Metre;
}

/** A piece of a line drawing. Arcs run from `from` to `to`, in radians anticlockwise from the x axis. */
export type Stroke =
  | { readonly kind: "polyline"; readonly points: readonly PlanePoint[]; readonly closed: boolean }
  | {
      readonly kind: "arc";
      readonly centre: PlanePoint;
      readonly radius: Metre;
      readonly from: number;
      readonly to: number;
    };

/** What a shape is made of; a sheet or a screen gives each its own line weight and tone. */
export type Material =
  | "topload"
  | "former"
  | "winding"
  | "primary"
  | "primaryUnused"
  | "strikeRing"
  | "axis"
  | "ground"
  | "ceiling"
  | "wall"
  | "person"
  | "rod";

export interface Shape {
  readonly id: string;
  readonly material: Material;
  /** Key of the coil file that it is drawn from. */
  readonly path: string;
  readonly says: string;
  readonly strokes: readonly Stroke[];
}

/** How a value follows a pull: `value += gain · (pull · direction)`, the pull in metres of the section plane. */
export interface Grip {
  readonly at: PlanePoint;
  readonly direction: PlanePoint;
  readonly gain: number;
}

export interface Dimension {
  /** Key of the coil file; also its id. */
  readonly path: string;
  /** What it measures: the part, then a comma, then which of its sizes. */
  readonly says: string;
  /** `span`: a line between witness lines. `note`: a word on a leader from `from`. */
  readonly kind: "span" | "note";
  readonly from: PlanePoint;
  readonly to: PlanePoint;
  /** Where a span's line is set off to, or a note's text stands. */
  readonly side: "left" | "right" | "above" | "below" | "between";
  /** Row outward from the part, nearest 0. */
  readonly rank: number;
  readonly group: "coil" | "room";
  readonly value: number;
  /** Name of the dimension of the value: `length`, `angle`, `count` or `ratio`. */
  readonly quantity: "length" | "angle" | "count" | "ratio";
  /** In the words of the file where it was written there. */
  readonly text: string;
  /** Set before the number: a diameter sign or a word. */
  readonly prefix: string;
  /** Set after the number: a word. */
  readonly suffix: string;
  /** One press of an arrow key. */
  readonly step: number;
  /** The value cannot go below. */
  readonly least: number;
  /** Nor above, where there is such a limit. */
  readonly most?: number;
  readonly grip?: Grip;
}

export interface Box {
  readonly left: Metre;
  readonly right: Metre;
  readonly bottom: Metre;
  readonly top: Metre;
}

/** The winding turn by turn, for those who look closely enough to see the wires. */
export interface WindingDetail {
  readonly turns: number;
  readonly pitch: Metre;
  readonly radius: Metre;
  readonly base: Metre;
  readonly bare: Metre;
  readonly overall: Metre;
}

export interface Drawing {
  readonly name: string;
  readonly shapes: readonly Shape[];
  readonly dimensions: readonly Dimension[];
  readonly winding: WindingDetail;
  readonly coilBox: Box;
  readonly roomBox: Box;
}

/**
 * The drawing of a coil: outlines to scale, both halves, and every dimension that can be changed.
 *
 * @param provenances  where given, a dimension reads as it is written in the file
 * @returns            metres; the left half is the mirror of the right
 */
export function drawing(coil: Coil, provenances?: Provenances): Drawing {
  const ofCoil = coilShapes(coil);
  const coilBox = unite([{ left: 0, right: 0, bottom: 0, top: 0 }, ...ofCoil.map(boxOf)]);
  const ofRoom = roomShapes(coil, coilBox);
  const roomBox = unite([coilBox, ...ofRoom.map(boxOf)]);
  return {
    name: coil.name,
    shapes: [...ofRoom, ...ofCoil],
    dimensions: [...coilDimensions(coil, provenances), ...roomDimensions(coil, coilBox, provenances)],
    winding: windingOf(coil.secondary),
    coilBox,
    roomBox,
  };
}
