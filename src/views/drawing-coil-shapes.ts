/** Outlines of the coil itself: top load, winding, primary, strike ring. */
import type { Coil, Primary, Secondary, TopLoad } from "../description/coil.ts";
import {
  conductorOutline,
  type Ring,
  rings,
  surroundings,
  topLoadKind,
  topLoadOutline,
  unusedRings,
} from "../parts/index.ts";
import type { Shape, Stroke, WindingDetail } from "./drawing.ts";
import { mirrored, sectionOf } from "./drawing-section.ts";

/** The winding turn by turn; `radius` is the centre line of the wire and `base` the height of the lowest turn's centre. */
export const windingOf = (secondary: Secondary): WindingDetail => ({
  turns: secondary.turns,
  pitch: secondary.length / secondary.turns,
  radius: secondary.former.outerDiameter / 2 + secondary.wire.overall / 2,
  base: secondary.baseHeight,
  bare: secondary.wire.bare,
  overall: secondary.wire.overall,
});

const rectangle = (left: number, right: number, bottom: number, top: number): Stroke => ({
  kind: "polyline",
  closed: true,
  points: [
    { x: left, z: bottom },
    { x: right, z: bottom },
    { x: right, z: top },
    { x: left, z: top },
  ],
});

const both = (stroke: Stroke): Stroke[] => [stroke, mirrored(stroke)];

function topLoadShape(load: TopLoad, index: number): Shape {
  const path = `topload.${index}.${topLoadKind(load)}`;
  return { id: path, material: "topload", path, says: topLoadKind(load), strokes: sectionOf(topLoadOutline(load)) };
}

function windingShapes(secondary: Secondary): Shape[] {
  const { turns, pitch, base } = windingOf(secondary);
  const inner = secondary.former.outerDiameter / 2;
  const bottom = base - pitch / 2;
  const top = bottom + turns * pitch;
  const outer = inner + secondary.wire.overall;
  return [
    {
      id: "former",
      material: "former",
      path: "secondary.former",
      says: "former",
      strokes: [rectangle(-inner, inner, bottom, top)],
    },
    {
      id: "winding",
      material: "winding",
      path: "secondary",
      says: "secondary winding",
      strokes: both(rectangle(inner, outer, bottom, top)),
    },
  ];
}

/** Where the centre line of the primary is, `turn` turns from its beginning: the first turn's ring is at 0. */
export function primaryAt(primary: Primary, turn: number): { x: number; z: number } {
  const along = turn * primary.pitch;
  return {
    x: primary.firstTurnDiameter / 2 + along * Math.cos(primary.angle),
    z: primary.baseHeight + along * Math.sin(primary.angle),
  };
}

function primaryShapes(primary: Primary): Shape[] {
  const { angle, conductor } = primary;
  const drawn = (turns: readonly Ring[]) =>
    turns.flatMap(({ radius, height }) => sectionOf(conductorOutline(conductor, { radius, height, angle })));
  const says = ["primary turns in circuit", "primary turns beyond the tap"];
  const shapes: Shape[] = [
    { id: "primary", material: "primary", path: "primary", says: says[0] ?? "", strokes: drawn(rings(primary)) },
    {
      id: "primary.unused",
      material: "primaryUnused",
      path: "primary",
      says: says[1] ?? "",
      strokes: drawn(unusedRings(primary)),
    },
  ];
  return shapes.filter(({ strokes }) => strokes.length > 0);
}

function strikeRingShape({ strikeRing }: Primary): Shape[] {
  if (strikeRing === undefined) return [];
  return [
    {
      id: "strikeRing",
      material: "strikeRing",
      path: "primary.strikeRing",
      says: strikeRing.earthed ? "strike ring, earthed" : "strike ring",
      strokes: sectionOf(surroundings.strikeRing.outline(strikeRing)),
    },
  ];
}

/** The coil's own outlines, top load first. */
export function coilShapes(coil: Coil): Shape[] {
  return [
    ...coil.topload.map(topLoadShape),
    ...windingShapes(coil.secondary),
    ...(coil.primary ? [...primaryShapes(coil.primary), ...strikeRingShape(coil.primary)] : []),
  ];
}
