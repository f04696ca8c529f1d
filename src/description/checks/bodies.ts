/** The coil's own conductors as closed meridian polygons: enough to see whether two of them share space. */
import {
  type boundsOf,
  conductorExtent,
  conductorOutline,
  endsOf,
  type Outline,
  type Point,
  rings,
  surroundings,
  topLoadKind,
  topLoadOutline,
  unusedRings,
} from "../../parts/index.ts";
import type { Coil } from "../coil.ts";

export interface Body {
  /** Key in the coil file that it belongs to. */
  readonly path: string;
  /** With its article, for messages: `the winding`. */
  readonly says: string;
  /** Top loads may cross each other, the primary's turns have a check of their own; no other two bodies may share space. */
  readonly group: "winding" | "topload" | "primary" | "strikeRing";
  readonly polygon: readonly Point[];
  readonly bounds: ReturnType<typeof boundsOf>;
}

/** Chords for a full turn of an arc: the polygon lies within 0.3 % of the radius inside the arc. */
const chordsPerTurn = 40;

/** Winding, top loads, primary turns (also beyond the tap) and strike ring, in that order. */
export function bodiesOf(coil: Coil): readonly Body[] {
  return [windingBody(coil), ...topLoadBodies(coil), ...primaryBodies(coil)];
}

function windingBody({ secondary: { former, wire, baseHeight, length } }: Coil): Body {
  const inner = former.outerDiameter / 2;
  return body({
    path: "secondary",
    says: "the winding",
    group: "winding",
    polygon: rectangle({ inner, outer: inner + wire.overall, bottom: baseHeight, top: baseHeight + length }),
  });
}

function topLoadBodies({ topload }: Coil): readonly Body[] {
  return topload.map((load, index) => {
    const kind = topLoadKind(load);
    return body({
      path: `topload.${index}.${kind}`,
      says: topload.length === 1 ? `the ${kind}` : `the ${kind} (top load ${index + 1})`,
      group: "topload",
      polygon: polygonOf(topLoadOutline(load)),
    });
  });
}

function primaryBodies({ primary }: Coil): readonly Body[] {
  if (primary === undefined) return [];
  const turns = [...rings(primary), ...unusedRings(primary)].map((ring, index) =>
    body({
      path: "primary",
      says: `turn ${index + 1} of the primary`,
      group: "primary",
      polygon: sectionOf(primary, { radius: ring.radius, height: ring.height }),
    }),
  );
  const ring = primary.strikeRing;
  if (ring === undefined) return turns;
  return [
    ...turns,
    body({
      path: "primary.strikeRing",
      says: "the strike ring",
      group: "strikeRing",
      polygon: polygonOf(surroundings.strikeRing.outline(ring)),
    }),
  ];
}

/** Cross-section of one turn; a strip gets its thickness, which its outline leaves out. */
function sectionOf({ conductor, angle }: NonNullable<Coil["primary"]>, at: TurnCentre): readonly Point[] {
  if (!("trace" in conductor)) return polygonOf(conductorOutline(conductor, { ...at, angle }));
  const { along, across } = conductorExtent(conductor);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([a, b]) => ({
    r: at.radius + (a * along * cos - b * across * sin) / 2,
    z: at.height + (a * along * sin + b * across * cos) / 2,
  }));
}
interface TurnCentre {
  readonly radius: number;
  readonly height: number;
}

function body(parts: Omit<Body, "bounds">): Body {
  const [r, z] = [parts.polygon.map((p) => p.r), parts.polygon.map((p) => p.z)];
  return {
    ...parts,
    bounds: { innerR: Math.min(...r), outerR: Math.max(...r), bottomZ: Math.min(...z), topZ: Math.max(...z) },
  };
}

function rectangle({
  inner,
  outer,
  bottom,
  top,
}: {
  inner: number;
  outer: number;
  bottom: number;
  top: number;
}): readonly Point[] {
  return [
    { r: inner, z: bottom },
    { r: outer, z: bottom },
    { r: outer, z: top },
    { r: inner, z: top },
  ];
}

function polygonOf(outline: Outline): readonly Point[] {
  return outline.flatMap((piece) => {
    if (piece.kind === "line") return [endsOf(piece).from];
    const chords = Math.max(2, Math.ceil((Math.abs(piece.to - piece.from) / (2 * Math.PI)) * chordsPerTurn));
    return Array.from({ length: chords }, (_, i) => {
      const angle = piece.from + ((piece.to - piece.from) * i) / chords;
      return { r: piece.centre.r + piece.radius * Math.cos(angle), z: piece.centre.z + piece.radius * Math.sin(angle) };
    });
  });
}

/** Whether two bodies share space. Bodies that only touch may be told either way. */
export function overlap(a: Body, b: Body): boolean {
  const apart =
    a.bounds.outerR < b.bounds.innerR ||
    b.bounds.outerR < a.bounds.innerR ||
    a.bounds.topZ < b.bounds.bottomZ ||
    b.bounds.topZ < a.bounds.bottomZ;
  if (apart) return false;
  return (
    a.polygon.some((p) => inside(p, b.polygon)) ||
    b.polygon.some((p) => inside(p, a.polygon)) ||
    edgesCross(a.polygon, b.polygon)
  );
}

function inside(point: Point, polygon: readonly Point[]): boolean {
  let odd = false;
  eachEdge(polygon, (from, to) => {
    if (
      from.z > point.z !== to.z > point.z &&
      point.r < from.r + ((to.r - from.r) * (point.z - from.z)) / (to.z - from.z)
    )
      odd = !odd;
  });
  return odd;
}

function edgesCross(a: readonly Point[], b: readonly Point[]): boolean {
  let cross = false;
  eachEdge(a, (p, q) =>
    eachEdge(b, (r, s) => {
      cross ||= side(p, q, r) * side(p, q, s) < 0 && side(r, s, p) * side(r, s, q) < 0;
    }),
  );
  return cross;
}

/** Positive where `c` lies to the left of the way from `a` to `b`. */
function side(a: Point, b: Point, c: Point): number {
  return (b.r - a.r) * (c.z - a.z) - (b.z - a.z) * (c.r - a.r);
}

function eachEdge(polygon: readonly Point[], visit: (from: Point, to: Point) => void): void {
  polygon.forEach((from, i) => {
    const to = polygon[(i + 1) % polygon.length];
    if (to !== undefined) visit(from, to);
  });
}
