/** The room: ground, ceiling, wall, people and rods, with their dimensions. */
import type { Coil, Person } from "../description/coil.ts";
import type { Provenances } from "../description/provenance.ts";
import { surroundings } from "../parts/index.ts";
import type { Box, Dimension, PlanePoint, Shape, Stroke } from "./drawing.ts";
import { dimensionOf } from "./drawing-dimension.ts";
import { sectionOf } from "./drawing-section.ts";

const line = (...points: PlanePoint[]): Stroke => ({ kind: "polyline", points, closed: false });

/** Half the width of ground that is drawn: past everything in the room. */
function reach({ site }: Coil, coilBox: Box): number {
  const inRoom = [...site.people, ...site.objects].map(({ at }) => at + 0.4);
  return Math.max(coilBox.right * 2, site.wall?.radius ?? 0, ...inRoom);
}

/** Head, shoulders and a plain body to scale, standing at `at` to the right of the axis. */
function personStrokes({ at, height, radius, foot }: Person): Stroke[] {
  const head = height * 0.068;
  const z = (share: number) => foot + (height - foot) * share;
  const x = (share: number) => at + radius * share;
  return [
    { kind: "arc", centre: { x: at, z: height - head }, radius: head, from: 0, to: 2 * Math.PI },
    {
      kind: "polyline",
      closed: true,
      points: [
        { x: x(-0.35), z: z(0.855) },
        { x: x(0.35), z: z(0.855) },
        { x: x(0.95), z: z(0.81) },
        { x: x(1), z: z(0.47) },
        { x: x(0.72), z: z(0.47) },
        { x: x(0.62), z: z(0) },
        { x: x(0.1), z: z(0) },
        { x: x(0), z: z(0.44) },
        { x: x(-0.1), z: z(0) },
        { x: x(-0.62), z: z(0) },
        { x: x(-0.72), z: z(0.47) },
        { x: x(-1), z: z(0.47) },
        { x: x(-0.95), z: z(0.81) },
      ],
    },
  ];
}

/** An upright body of revolution, moved to where it stands. */
const standingAt = (at: number, strokes: readonly Stroke[]): Stroke[] =>
  strokes.map((stroke) =>
    stroke.kind === "polyline"
      ? { ...stroke, points: stroke.points.map(({ x, z }) => ({ x: x + at, z })) }
      : { ...stroke, centre: { x: stroke.centre.x + at, z: stroke.centre.z } },
  );

/** Outlines of the surroundings. The wall is a cylinder about the axis and is cut on both sides; people and rods stand to the right. */
export function roomShapes(coil: Coil, coilBox: Box): Shape[] {
  const { site } = coil;
  const half = reach(coil, coilBox);
  const left = site.wall === undefined ? -Math.max(coilBox.right * 2, half * 0.35) : -site.wall.radius;
  const ceiling = site.ceiling;
  const top = ceiling?.height ?? coilBox.top * 1.25;
  const shapes: Shape[] = [
    {
      id: "ground",
      material: "ground",
      path: "site",
      says: "ground plane",
      strokes: [line({ x: left, z: 0 }, { x: half, z: 0 })],
    },
    {
      id: "axis",
      material: "axis",
      path: "site",
      says: "axis",
      strokes: [line({ x: 0, z: 0 }, { x: 0, z: coilBox.top * 1.06 })],
    },
  ];
  if (ceiling) {
    const radius = ceiling.radius ?? Number.POSITIVE_INFINITY;
    const strokes = [
      line({ x: Math.max(left, -radius), z: ceiling.height }, { x: Math.min(half, radius), z: ceiling.height }),
    ];
    shapes.push({ id: "ceiling", material: "ceiling", path: "site.ceiling", says: "ceiling", strokes });
  }
  if (site.wall) {
    const { radius, height } = site.wall;
    const strokes = [-radius, radius].map((x) => line({ x, z: 0 }, { x, z: height ?? top }));
    shapes.push({ id: "wall", material: "wall", path: "site.wall", says: "wall", strokes });
  }
  site.people.forEach((person, index) => {
    const path = `site.people.${index}`;
    shapes.push({ id: path, material: "person", path, says: "person", strokes: personStrokes(person) });
  });
  site.objects.forEach((object, index) => {
    const path = `site.objects.${index}`;
    shapes.push({
      id: path,
      material: "rod",
      path,
      says: object.earthed ? "rod, earthed" : "rod",
      strokes: standingAt(object.at, sectionOf(surroundings.rod.outline(object))),
    });
  });
  return shapes;
}

/** Distances and heights in the room, changed like the coil's own. */
export function roomDimensions(coil: Coil, coilBox: Box, provenances?: Provenances): Dimension[] {
  const { site } = coil;
  const right: PlanePoint = { x: 1, z: 0 };
  const up: PlanePoint = { x: 0, z: 1 };
  const drafts: Parameters<typeof dimensionOf>[0][] = [];
  const standing = (path: string, name: string, { at, height }: { at: number; height: number }, rank: number) => {
    drafts.push(
      {
        path: `${path}.at`,
        says: `${name}, distance from the axis`,
        value: at,
        side: "below",
        rank,
        from: { x: 0, z: 0 },
        to: { x: at, z: 0 },
        grip: { at: { x: at, z: height * 0.3 }, direction: right, gain: 1 },
      },
      {
        path: `${path}.height`,
        says: `${name}, height`,
        value: height,
        side: "right",
        from: { x: at, z: 0 },
        to: { x: at, z: height },
        grip: { at: { x: at, z: height }, direction: up, gain: 1 },
      },
    );
  };
  const all = [
    ...site.people.map((person, index) => ({
      path: `site.people.${index}`,
      name: site.people.length > 1 ? `person ${index + 1}` : "person",
      of: person,
    })),
    ...site.objects.map((object, index) => ({
      path: `site.objects.${index}`,
      name: site.objects.length > 1 ? `rod ${index + 1}` : "rod",
      of: object,
    })),
  ].sort((a, b) => a.of.at - b.of.at);
  all.forEach(({ path, name, of }, rank) => {
    standing(path, name, of, rank);
  });
  if (site.ceiling) {
    const x = site.wall ? -site.wall.radius * 0.82 : -coilBox.right * 1.6;
    drafts.push({
      path: "site.ceiling.height",
      says: "ceiling, height",
      value: site.ceiling.height,
      side: "between",
      from: { x, z: 0 },
      to: { x, z: site.ceiling.height },
      grip: { at: { x, z: site.ceiling.height }, direction: up, gain: 1 },
    });
  }
  if (site.wall) {
    const z = (site.wall.height ?? site.ceiling?.height ?? coilBox.top * 1.25) * 0.72;
    const path = "site.wall.radius";
    drafts.push({
      path,
      says: "wall, distance from the axis",
      value: site.wall.radius,
      side: "between",
      from: { x: -site.wall.radius, z },
      to: { x: 0, z },
      grip: { at: { x: -site.wall.radius, z }, direction: { x: -1, z: 0 }, gain: 1 },
    });
  }
  return drafts.map((draft) => dimensionOf({ ...draft, group: "room" }, provenances));
}
