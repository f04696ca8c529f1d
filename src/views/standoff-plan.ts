/** Plan and section of the room as data in metres: coil, reach, strike distance, line, barrier, people, earth, breaker, exit. */

import type { Coil, FloorPlace } from "../description/coil.ts";
import { type Walls, wallsOf } from "../description/walls.ts";
import type { Metre } from "../units/si.ts";
import { type LengthWords, lengthWords } from "../workbench/keep-off.ts";
import type { Standoff } from "../workbench/standoff-contract.ts";
import { type Box, drawing, type PlanePoint, type Stroke } from "./drawing.ts";

/** What a mark stands for; a sheet or a screen gives each its own weight and tone, and a name beside it, so that no colour is needed. */
export type FloorTone =
  | "coil"
  | "arc"
  | "strike"
  | "line"
  | "barrier"
  | "room"
  | "people"
  | "crew"
  | "metal"
  | "ground";

export interface FloorMark {
  readonly id: string;
  readonly tone: FloorTone;
  /** Key of the coil file, or id of the figure, that it is drawn from. */
  readonly path: string;
  /** One clause for who cannot see it. */
  readonly says: string;
  readonly strokes: readonly Stroke[];
  readonly label?: { readonly at: PlanePoint; readonly text: string; readonly anchor: "start" | "middle" | "end" };
}

/**
 * A drawing of the room. In the plan x runs to the audience's side (bearing 0°) and z to the left hand of who looks there, so that bearings turn
 * anticlockwise; in the section x is the same and z is up. Both share x, so one can stand above the other.
 */
export interface FloorDrawing {
  readonly kind: "plan" | "section";
  readonly name: string;
  readonly says: string;
  readonly marks: readonly FloorMark[];
  readonly box: Box;
}

const circle = (radius: Metre, centre: PlanePoint = { x: 0, z: 0 }): Stroke => ({
  kind: "arc",
  centre,
  radius,
  from: 0,
  to: 2 * Math.PI,
});
const path = (closed: boolean, ...points: readonly PlanePoint[]): Stroke => ({ kind: "polyline", points, closed });
/** How distances are written: in metres, or in feet and inches. */
export interface FloorWords {
  readonly lengths?: "m" | "in";
}
const pointOf = ({ at, bearing }: FloorPlace): PlanePoint => ({
  x: at * Math.cos(bearing),
  z: at * Math.sin(bearing),
});

interface Distances {
  readonly reach: Metre | undefined;
  readonly strike: Metre | undefined;
  readonly audience: Metre | undefined;
}
const distancesOf = ({ figures }: Standoff): Distances => ({
  reach: figures.get("standoff.reach")?.value,
  strike: figures.get("standoff.strike")?.value,
  audience: figures.get("standoff.audience")?.value,
});

const crewNames = {
  operator: "operator",
  second: "second person",
  breaker: "breaker",
  exit: "way out",
  earth: "earth",
} as const;

/** The room seen from above. */
export function standoffPlan(coil: Coil, standoff: Standoff, words: FloorWords = {}): FloorDrawing {
  const writing = lengthWords(words.lengths);
  const { length, keep } = writing;
  const { show, site } = coil;
  const { place } = standoff;
  const { reach, strike, audience } = distancesOf(standoff);
  const top = (radius: Metre): PlanePoint => ({ x: 0, z: radius });
  const ring = (
    id: string,
    tone: FloorTone,
    from: string,
    radius: Metre | undefined,
    says: string,
    text: string,
  ): readonly FloorMark[] =>
    radius === undefined
      ? []
      : [{ id, tone, path: from, says, strokes: [circle(radius)], label: { at: top(radius), text, anchor: "middle" } }];
  const outward = (distance: Metre | undefined) => (distance === undefined ? undefined : place.radius + distance);
  const walls = wallsOf(coil);
  const wall =
    walls?.shape === "round"
      ? ring("wall", "room", walls.path, walls.ahead, `wall ${length(walls.ahead)} from the axis`, "wall")
      : [];
  const primary = coil.primary;
  const marks: readonly FloorMark[] = [
    ...roomMarks(coil, writing),
    ...wall,
    ...ring(
      "audience",
      "line",
      "standoff.audience",
      audience,
      `line for bystanders ${keep(audience ?? 0)} from the axis, decided by: ${standoff.line.decides?.says ?? ""}`,
      `line ${keep(audience ?? 0)}`,
    ),
    ...ring(
      "barrier",
      "barrier",
      "show.barrier",
      show?.barrier,
      `barrier ${length(show?.barrier ?? 0)} from the axis`,
      `barrier ${length(show?.barrier ?? 0)}`,
    ),
    ...ring(
      "strike",
      "strike",
      "standoff.strike",
      outward(strike),
      `strike distance, ${keep(strike ?? 0)} from where the arc leaves`,
      `strike ${keep(strike ?? 0)}`,
    ),
    ...ring(
      "reach",
      "arc",
      "standoff.reach",
      outward(reach),
      `the arc may reach ${keep(reach ?? 0)} from where it leaves`,
      `reach ${keep(reach ?? 0)}`,
    ),
    {
      id: "coil",
      tone: "coil",
      path: "topload",
      says: `coil, ${length(2 * place.radius)} across where high voltage can leave it`,
      strokes: [
        circle(place.radius),
        circle(coil.secondary.former.outerDiameter / 2),
        ...(primary?.strikeRing ? [circle(primary.strikeRing.diameter / 2)] : []),
      ],
    },
    ...site.objects.map(
      ({ at, diameter, earthed }, index): FloorMark => ({
        id: `object.${index}`,
        tone: "metal",
        path: `site.objects.${index}`,
        says: `rod ${length(at)} from the axis, ${earthed ? "earthed" : "not earthed"}`,
        strokes: [circle(Math.max(diameter / 2, 0.04), { x: at, z: 0 })],
        label: { at: { x: at, z: 0.12 }, text: earthed ? "rod, earthed" : "rod, not earthed", anchor: "middle" },
      }),
    ),
    ...site.people.map(
      ({ at, radius }, index): FloorMark => ({
        id: `person.${index}`,
        tone: "people",
        path: `site.people.${index}`,
        says: `somebody ${length(at)} from the axis`,
        strokes: [circle(radius, { x: at, z: 0 })],
        label: { at: { x: at, z: radius + 0.08 }, text: `somebody ${length(at)}`, anchor: "middle" },
      }),
    ),
    ...crewMarks(coil, writing, 0.014 * Math.max(10, audience ?? 0, show?.barrier ?? 0, show?.room?.depth ?? 0)),
  ];
  return {
    kind: "plan",
    name: coil.name,
    says: `Plan of the room to scale, from above, the audience to the right. ${lineWords(standoff, writing)}`,
    marks,
    box: boxOf(marks),
  };
}

const lineWords = (standoff: Standoff, { keep }: LengthWords): string => {
  const { audience } = distancesOf(standoff);
  return audience === undefined
    ? "No line can be computed: nobody but the operator in the room."
    : `Line for bystanders at ${keep(audience)}, decided by this: ${standoff.line.decides?.says ?? ""}. No permission.`;
};

function roomMarks(coil: Coil, { length }: LengthWords): readonly FloorMark[] {
  const walls = wallsOf(coil);
  if (walls?.shape !== "room") return [];
  const [left, right, half] = [-walls.behind, walls.ahead, walls.aside];
  const [depth, width] = [length(walls.behind + walls.ahead), length(2 * walls.aside)];
  return [
    {
      id: "room",
      tone: "room",
      path: walls.path,
      says: `room of ${depth} by ${width}`,
      strokes: [path(true, { x: left, z: -half }, { x: right, z: -half }, { x: right, z: half }, { x: left, z: half })],
      label: { at: { x: right, z: -half }, text: `${depth} × ${width}`, anchor: "end" },
    },
  ];
}

/** Operator, second person, breaker, exit, earth with its lead: each with a shape of its own, of a size that can be seen. */
function crewMarks({ show }: Coil, { length }: LengthWords, size: Metre): readonly FloorMark[] {
  if (show === undefined) return [];
  const shapes: Readonly<Record<keyof typeof crewNames, (at: PlanePoint) => readonly Stroke[]>> = {
    operator: (at) => [circle(size, at), circle(size / 2, at)],
    second: (at) => [circle(size, at)],
    breaker: ({ x, z }) => [
      path(
        true,
        { x: x - size, z: z - size },
        { x: x + size, z: z - size },
        { x: x + size, z: z + size },
        { x: x - size, z: z + size },
      ),
      path(false, { x: x - size, z: z - size }, { x: x + size, z: z + size }),
    ],
    exit: ({ x, z }) => [
      path(
        true,
        { x: x - size, z: z - 2 * size },
        { x: x + size, z: z - 2 * size },
        { x: x + size, z: z + 2 * size },
        { x: x - size, z: z + 2 * size },
      ),
    ],
    earth: ({ x, z }) => [
      path(false, { x: 0, z: 0 }, { x, z }),
      path(false, { x: x - 2 * size, z: z - size / 2 }, { x: x + 2 * size, z: z - size / 2 }),
      path(false, { x: x - 1.3 * size, z: z - size }, { x: x + 1.3 * size, z: z - size }),
      path(false, { x: x - 0.6 * size, z: z - 1.5 * size }, { x: x + 0.6 * size, z: z - 1.5 * size }),
    ],
  };
  return (Object.keys(crewNames) as (keyof typeof crewNames)[]).flatMap((who): readonly FloorMark[] => {
    const found = show[who];
    if (found === undefined) return [];
    const at = pointOf(found);
    const lead = who === "earth" && show.earth?.lead !== undefined ? `, lead ${length(show.earth.lead)}` : "";
    return [
      {
        id: who,
        tone: who === "earth" ? "metal" : "crew",
        path: `show.${who}`,
        says: `${crewNames[who]} ${length(found.at)} from the axis${lead}`,
        strokes: shapes[who](at),
        label: { at: { x: at.x, z: at.z + 2.2 * size }, text: `${crewNames[who]}${lead}`, anchor: "middle" },
      },
    ];
  });
}

/** The room cut along the line from coil to audience. */
export function standoffSection(coil: Coil, standoff: Standoff, words: FloorWords = {}): FloorDrawing {
  const writing = lengthWords(words.lengths);
  const { length, keep } = writing;
  const { place } = standoff;
  const { reach, strike, audience } = distancesOf(standoff);
  const base = coil.secondary.baseHeight;
  const walls = wallsOf(coil);
  const drawn = drawing(coil);
  // The wall of the drawing is the site's; plan and section show the same walls.
  const ofRoom = walls?.shape === "room";
  const shapes = drawn.shapes
    .filter(({ material }) => !(ofRoom && material === "wall"))
    .map(
      ({ id, material, path: from, says, strokes }): FloorMark => ({
        id: `section.${id}`,
        tone:
          material === "person"
            ? "people"
            : material === "rod"
              ? "metal"
              : material === "ground"
                ? "ground"
                : material === "wall" || material === "ceiling"
                  ? "room"
                  : "coil",
        path: from,
        says,
        strokes,
      }),
    );
  const envelope = (
    id: string,
    tone: FloorTone,
    from: string,
    distance: Metre | undefined,
    name: string,
  ): readonly FloorMark[] =>
    distance === undefined || !(distance > 0)
      ? []
      : [
          {
            id,
            tone,
            path: from,
            says: `${name} ${keep(distance)} from winding and top load, up to ${length(place.top + distance)} above the floor`,
            strokes: around({ radius: place.radius, bottom: base, top: place.top, distance }),
            label: { at: { x: 0, z: place.top + distance }, text: `${name} ${keep(distance)}`, anchor: "middle" },
          },
        ];
  const post = (
    id: string,
    tone: FloorTone,
    from: string,
    at: Metre | undefined,
    name: string,
    said = keep,
  ): readonly FloorMark[] =>
    at === undefined
      ? []
      : [-1, 1].map(
          (side): FloorMark => ({
            id: side > 0 ? id : `${id}.left`,
            tone,
            path: from,
            says: `${name} ${said(at)} from the axis`,
            strokes: [path(false, { x: side * at, z: 0 }, { x: side * at, z: tone === "barrier" ? 1.1 : 2 })],
            ...(side > 0
              ? {
                  label: {
                    at: { x: at, z: tone === "barrier" ? 1.2 : 2.1 },
                    text: `${name} ${said(at)}`,
                    anchor: "middle" as const,
                  },
                }
              : {}),
          }),
        );
  const marks: readonly FloorMark[] = [
    ...envelope("strike", "strike", "standoff.strike", strike, "strike"),
    ...envelope("reach", "arc", "standoff.reach", reach, "reach"),
    ...post("audience", "line", "standoff.audience", audience, "line"),
    ...post("barrier", "barrier", "show.barrier", coil.show?.barrier, "barrier", length),
    ...(ofRoom ? [wallsMark(coil, walls, place.top + (strike ?? 0), writing)] : []),
    ...shapes,
  ];
  return {
    kind: "section",
    name: coil.name,
    says: `Section of the room to scale, the audience to the right. ${lineWords(standoff, writing)}`,
    marks,
    box: boxOf(marks),
  };
}

/** Both ends of the room, up to the ceiling or as high as all else. */
function wallsMark(
  { site }: Coil,
  { path: from, behind, ahead }: Walls,
  top: Metre,
  { length }: LengthWords,
): FloorMark {
  const height = site.ceiling?.height ?? site.wall?.height ?? top;
  return {
    id: "section.room",
    tone: "room",
    path: from,
    says: `the room ends ${length(behind)} behind the axis and ${length(ahead)} before it`,
    strokes: [-behind, ahead].map((x) => path(false, { x, z: 0 }, { x, z: height })),
  };
}

/** Everything within a distance of an upright cylinder, down to the floor. */
function around({
  radius,
  bottom,
  top,
  distance,
}: {
  radius: Metre;
  bottom: Metre;
  top: Metre;
  distance: Metre;
}): readonly Stroke[] {
  const out = radius + distance;
  // Below the winding the arc bends round its lower end; where that lies near the floor it is a wall down to it.
  const low = Math.max(0, bottom - distance);
  const inward = bottom >= distance ? radius : out;
  return [
    path(false, { x: out, z: bottom >= distance ? bottom : 0 }, { x: out, z: top }),
    { kind: "arc", centre: { x: radius, z: top }, radius: distance, from: 0, to: Math.PI / 2 },
    path(false, { x: radius, z: top + distance }, { x: -radius, z: top + distance }),
    { kind: "arc", centre: { x: -radius, z: top }, radius: distance, from: Math.PI / 2, to: Math.PI },
    path(false, { x: -out, z: top }, { x: -out, z: bottom >= distance ? bottom : 0 }),
    ...(bottom >= distance
      ? ([
          { kind: "arc", centre: { x: -radius, z: bottom }, radius: distance, from: Math.PI, to: 1.5 * Math.PI },
          path(false, { x: -inward, z: low }, { x: inward, z: low }),
          { kind: "arc", centre: { x: radius, z: bottom }, radius: distance, from: 1.5 * Math.PI, to: 2 * Math.PI },
        ] as const)
      : []),
  ];
}

/** Points along an arc, near enough for a box. */
const alongArc = ({ centre, radius, from, to }: Stroke & { readonly kind: "arc" }): readonly PlanePoint[] =>
  Array.from({ length: 17 }, (_, index) => {
    const angle = from + ((to - from) * index) / 16;
    return { x: centre.x + radius * Math.cos(angle), z: centre.z + radius * Math.sin(angle) };
  });

/** Around all strokes, with a little air for the labels. */
function boxOf(marks: readonly FloorMark[]): Box {
  const points = marks.flatMap(({ strokes, label }) => [
    ...strokes.flatMap((stroke) => (stroke.kind === "polyline" ? stroke.points : alongArc(stroke))),
    ...(label ? [label.at] : []),
  ]);
  const [xs, zs] = [points.map(({ x }) => x), points.map(({ z }) => z)];
  const air = 0.04 * (Math.max(...xs) - Math.min(...xs));
  return {
    left: Math.min(...xs) - air,
    right: Math.max(...xs) + air,
    bottom: Math.min(...zs) - air,
    top: Math.max(...zs) + air,
  };
}
