/** Outlines of the coil itself: top load, winding, primary, strike ring. */
import type { Coil, Conductor, Primary, Secondary, TopLoad } from "../description/coil.ts";
import type { Outline } from "../parts/shape.ts";
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

const circle = (x: number, z: number, radius: number): Stroke => ({
  kind: "arc",
  centre: { x, z },
  radius,
  from: 0,
  to: 2 * Math.PI,
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

function topLoadOutline(load: TopLoad): Outline {
  if ("toroid" in load) {
    const { outerDiameter, tubeDiameter, height } = load.toroid;
    const centre = { r: (outerDiameter - tubeDiameter) / 2, z: height };
    return [{ kind: "arc", centre, radius: tubeDiameter / 2, from: 0, to: 2 * Math.PI }];
  }
  if ("sphere" in load) {
    const centre = { r: 0, z: load.sphere.height };
    return [{ kind: "arc", centre, radius: load.sphere.diameter / 2, from: -Math.PI / 2, to: Math.PI / 2 }];
  }
  if ("disc" in load) {
    const { diameter, thickness, height } = load.disc;
    return rounded(diameter / 2, thickness, thickness / 2, height);
  }
  const { diameter, length, edgeRadius, height } = load.cylinder;
  return rounded(diameter / 2, length, edgeRadius, height);
}

/** A cylinder about the axis with rounded edges, centred at `height`. */
function rounded(radius: number, length: number, edge: number, height: number): Outline {
  const low = height - length / 2;
  const high = height + length / 2;
  const r = radius - edge;
  return [
    { kind: "line", from: { r: 0, z: low }, to: { r, z: low } },
    { kind: "arc", centre: { r, z: low + edge }, radius: edge, from: -Math.PI / 2, to: 0 },
    { kind: "line", from: { r: radius, z: low + edge }, to: { r: radius, z: high - edge } },
    { kind: "arc", centre: { r, z: high - edge }, radius: edge, from: 0, to: Math.PI / 2 },
    { kind: "line", from: { r, z: high }, to: { r: 0, z: high } },
  ];
}

const kindOf = (load: TopLoad) => Object.keys(load)[0] as "toroid" | "sphere" | "disc" | "cylinder";

function topLoadShape(load: TopLoad, index: number): Shape {
  const path = `topload.${index}.${kindOf(load)}`;
  return { id: path, material: "topload", path, says: kindOf(load), strokes: sectionOf(topLoadOutline(load)) };
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

/** A round conductor's cross-section, or a printed trace's. */
function conductorStroke(conductor: Conductor, x: number, z: number): Stroke {
  if ("tube" in conductor) return circle(x, z, conductor.tube / 2);
  if ("wire" in conductor) return circle(x, z, conductor.wire / 2);
  const { width, thickness } = conductor.trace;
  return rectangle(x - width / 2, x + width / 2, z - thickness / 2, z + thickness / 2);
}

/** Where the centre line of the primary has got to after `turn` turns: the first turn at 1. */
export function primaryAt(primary: Primary, turn: number): { x: number; z: number } {
  const along = (turn - 1) * primary.pitch;
  return {
    x: primary.firstTurnDiameter / 2 + along * Math.cos(primary.angle),
    z: primary.baseHeight + along * Math.sin(primary.angle),
  };
}

function primaryShapes(primary: Primary): Shape[] {
  const used: Stroke[] = [];
  const unused: Stroke[] = [];
  const levels = primary.layers.count === 2 ? [0, -primary.layers.gap] : [0];
  for (const below of levels) {
    for (let turn = 1; turn <= Math.ceil(primary.turns - 1e-9); turn++) {
      const { x, z } = primaryAt(primary, turn);
      const strokes = both(conductorStroke(primary.conductor, x, z + below));
      (turn <= Math.ceil(primary.tap - 1e-9) ? used : unused).push(...strokes);
    }
  }
  return [
    { id: "primary", material: "primary", path: "primary", says: "primary turns in circuit", strokes: used },
    ...(unused.length > 0
      ? [
          {
            id: "primary.unused",
            material: "primaryUnused" as const,
            path: "primary",
            says: "primary turns beyond the tap",
            strokes: unused,
          },
        ]
      : []),
  ];
}

function strikeRingShape({ strikeRing }: Primary): Shape[] {
  if (strikeRing === undefined) return [];
  const stroke = circle(strikeRing.diameter / 2, strikeRing.height, strikeRing.tube / 2);
  return [
    {
      id: "strikeRing",
      material: "strikeRing",
      path: "primary.strikeRing",
      says: strikeRing.earthed ? "strike ring, earthed" : "strike ring",
      strokes: both(stroke),
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
