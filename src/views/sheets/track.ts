/** Geometry that is cut, drilled and etched: circles, and chains of lines and arcs, in metres, y up. */
import type { Metre } from "../../units/si.ts";
import { arc, circle, type Segment } from "./page.ts";

export interface TrackPoint {
  readonly x: Metre;
  readonly y: Metre;
  /** Of the arc to the next point: tangent of a quarter of its angle, positive anticlockwise; absent where it is straight. */
  readonly bulge?: number;
}

/** What a track is for; each is a layer of its own. */
export type Layer = "outline" | "drill" | "guide" | "copper-upper" | "copper-lower";

export type Track =
  | { readonly kind: "circle"; readonly layer: Layer; readonly x: Metre; readonly y: Metre; readonly radius: Metre }
  | { readonly kind: "chain"; readonly layer: Layer; readonly points: readonly TrackPoint[]; readonly closed: boolean };

/** A drawing for a machine, about its own zero. */
export interface CutDrawing {
  readonly name: string;
  readonly tracks: readonly Track[];
}

/** A track as a path of a page, y down. */
export function trackSegments(track: Track): readonly Segment[] {
  if (track.kind === "circle") return circle({ x: track.x, y: -track.y }, track.radius);
  const { points, closed } = track;
  const segments: Segment[] = [];
  const count = closed ? points.length : points.length - 1;
  for (const [n, from] of points.entries()) {
    if (n === 0) segments.push({ kind: "move", to: { x: from.x, y: -from.y } });
    if (n >= count) break;
    const to = points[(n + 1) % points.length] as TrackPoint;
    segments.push(...pieceBetween(from, to));
  }
  return closed ? [...segments, { kind: "close" }] : segments;
}

function pieceBetween(from: TrackPoint, to: TrackPoint): readonly Segment[] {
  const { bulge } = from;
  if (!bulge) return [{ kind: "line", to: { x: to.x, y: -to.y } }];
  const { centre, radius, begin, sweep } = arcOf(from, to, bulge);
  return arc({ centre: { x: centre.x, y: -centre.y }, radius, from: -begin, to: -(begin + sweep) }).slice(1);
}

/** The circle of a bulge: `sweep` is positive anticlockwise, y up. */
function arcOf(from: TrackPoint, to: TrackPoint, bulge: number) {
  const sweep = 4 * Math.atan(bulge);
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  // from the middle of the chord to the centre, over the chord
  const away = 1 / (2 * Math.tan(sweep / 2));
  const centre = { x: (from.x + to.x) / 2 - away * dy, y: (from.y + to.y) / 2 + away * dx };
  const radius = Math.hypot(from.x - centre.x, from.y - centre.y);
  return { centre, radius, begin: Math.atan2(from.y - centre.y, from.x - centre.x), sweep };
}

/** The straight line between two points. */
export const straight = (layer: Layer, from: TrackPoint, to: TrackPoint): Track => ({
  kind: "chain",
  layer,
  points: [from, to],
  closed: false,
});

/** Bounds of tracks; arcs by their ends and the circles by their size. */
export function boundsOfTracks(tracks: readonly Track[]): { left: Metre; right: Metre; low: Metre; high: Metre } {
  const xs: number[] = [];
  const ys: number[] = [];
  for (const track of tracks) {
    if (track.kind === "circle") {
      xs.push(track.x - track.radius, track.x + track.radius);
      ys.push(track.y - track.radius, track.y + track.radius);
    } else
      for (const { x, y } of track.points) {
        xs.push(x);
        ys.push(y);
      }
  }
  return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
}
