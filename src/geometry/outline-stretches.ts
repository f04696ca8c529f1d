/** Outlines → stretches: one conductor, or several that touch or cross at one potential, as the surface that can be seen from outside. */

import type { Outline, Piece, Point } from "../parts/shape.ts";
import { type End, isFullTurn, pointOn, type Stretch } from "./stretch.ts";

/** Samples along a piece in which a crossing is looked for; two crossings nearer than this share of a piece are missed. */
const samples = 256;
/** Tangents that differ by less than this (radians) join smoothly. */
const smoothAngle = 1e-3;
/** Parts shorter than this share of their piece are dropped. */
const leastShare = 1e-4;

/**
 * The outer surface of conductors joined together: what lies inside another is left out, since no charge sits there, and the cut ends
 * are edges.
 *
 * @param outlines  each begins and ends on the axis, closes on itself, or is a thin sheet
 */
export function outerStretches(outlines: readonly Outline[]): Stretch[] {
  return outlines.flatMap((outline, index) => {
    const others = outlines.filter((_, other) => other !== index);
    // Of two outlines that coincide the first keeps the shared surface.
    const earlier = outlines.slice(0, index);
    return outline.flatMap((piece, p) => {
      const starts = joinBefore(outline, p);
      const ends = joinBefore(outline, p + 1);
      const hidden = (share: number): boolean => {
        const point = pointOn(piece, share);
        return others.some((other) => encloses(other, point)) || earlier.some((other) => liesOn(other, point));
      };
      return visibleParts({ piece, starts, ends, hidden });
    });
  });
}

/** Whether the point is inside the body: a ray outwards from it crosses the outline an odd number of times. */
export function encloses(outline: Outline, point: Point): boolean {
  let crossings = 0;
  for (const piece of outline)
    crossings += piece.kind === "line" ? lineCrossings(piece, point) : arcCrossings(piece, point);
  return crossings % 2 === 1;
}

function lineCrossings({ from, to }: Extract<Piece, { kind: "line" }>, point: Point): number {
  if (from.z > point.z === to.z > point.z) return 0;
  const share = (point.z - from.z) / (to.z - from.z);
  return from.r + share * (to.r - from.r) > point.r ? 1 : 0;
}

function arcCrossings(piece: Extract<Piece, { kind: "arc" }>, point: Point): number {
  const { centre, radius, from, to } = piece;
  const sine = (point.z - centre.z) / radius;
  if (Math.abs(sine) >= 1) return 0;
  const angle = Math.asin(sine);
  const low = Math.min(from, to);
  const high = Math.max(from, to);
  let count = 0;
  for (const candidate of [angle, Math.PI - angle]) {
    const turned = low + modulo(candidate - low, 2 * Math.PI);
    if (turned < high && centre.r + radius * Math.cos(candidate) > point.r) count++;
  }
  return count;
}

function liesOn(outline: Outline, point: Point): boolean {
  return outline.some((piece) => {
    if (piece.kind === "arc") {
      const reach = Math.hypot(point.r - piece.centre.r, point.z - piece.centre.z);
      if (Math.abs(reach - piece.radius) > 1e-9 * piece.radius) return false;
      const low = Math.min(piece.from, piece.to);
      const angle = Math.atan2(point.z - piece.centre.z, point.r - piece.centre.r);
      return low + modulo(angle - low, 2 * Math.PI) <= Math.max(piece.from, piece.to);
    }
    const length = Math.hypot(piece.to.r - piece.from.r, piece.to.z - piece.from.z);
    const along =
      ((point.r - piece.from.r) * (piece.to.r - piece.from.r) +
        (point.z - piece.from.z) * (piece.to.z - piece.from.z)) /
      length;
    const off =
      ((point.r - piece.from.r) * (piece.to.z - piece.from.z) -
        (point.z - piece.from.z) * (piece.to.r - piece.from.r)) /
      length;
    return along >= 0 && along <= length && Math.abs(off) < 1e-9 * length;
  });
}

const modulo = (value: number, by: number): number => ((value % by) + by) % by;

/** How the outline comes to its piece `p`: smoothly (on the axis, or with one tangent) or over an edge. */
function joinBefore(outline: Outline, p: number): End {
  const before = outline[p - 1] ?? closingPiece(outline, "last");
  const after = outline[p] ?? closingPiece(outline, "first");
  const only = p === 0 ? outline[0]! : outline[outline.length - 1]!;
  if (!before || !after) return pointOn(only, p === 0 ? 0 : 1).r < 1e-12 ? "smooth" : "edge";
  const bend = Math.abs(modulo(direction(after, 0) - direction(before, 1) + Math.PI, 2 * Math.PI) - Math.PI);
  return bend < smoothAngle ? "smooth" : "edge";
}

/** The piece on the far side of the seam, where the outline closes on itself. */
function closingPiece(outline: Outline, which: "first" | "last"): Piece | undefined {
  const start = pointOn(outline[0]!, 0);
  const end = pointOn(outline[outline.length - 1]!, 1);
  if (Math.hypot(start.r - end.r, start.z - end.z) > 1e-9) return undefined;
  return which === "last" ? outline[outline.length - 1] : outline[0];
}

function direction(piece: Piece, share: 0 | 1): number {
  if (piece.kind === "line") return Math.atan2(piece.to.z - piece.from.z, piece.to.r - piece.from.r);
  return (share === 0 ? piece.from : piece.to) + (piece.to > piece.from ? 0.5 : -0.5) * Math.PI;
}

function visibleParts({
  piece,
  starts,
  ends,
  hidden,
}: {
  piece: Piece;
  starts: End;
  ends: End;
  hidden: (share: number) => boolean;
}): Stretch[] {
  const seen = Array.from({ length: samples }, (_, i) => !hidden((i + 0.5) / samples));
  if (seen.every(Boolean)) return [{ piece, from: 0, to: 1, starts, ends }];
  if (!seen.some(Boolean)) return [];
  const crossings: number[] = [];
  for (let i = 1; i < samples; i++) {
    if (seen[i] === seen[i - 1]) continue;
    let low = (i - 0.5) / samples;
    let high = (i + 0.5) / samples;
    for (let pass = 0; pass < 44; pass++) {
      const mid = 0.5 * (low + high);
      if (!hidden(mid) === seen[i - 1]) low = mid;
      else high = mid;
    }
    crossings.push(0.5 * (low + high));
  }
  const bounds = [0, ...crossings, 1];
  const parts: Stretch[] = [];
  for (let k = 0; k + 1 < bounds.length; k++) {
    if (seen[0] ? k % 2 === 1 : k % 2 === 0) continue;
    parts.push({
      piece,
      from: bounds[k]!,
      to: bounds[k + 1]!,
      starts: k === 0 ? starts : "edge",
      ends: k + 2 === bounds.length ? ends : "edge",
    });
  }
  return joinSeam(piece, parts).filter((part) => part.to - part.from > leastShare);
}

/** On a full circle the first and the last part are one; the circle is turned to begin at a cut. */
function joinSeam(piece: Piece, parts: Stretch[]): Stretch[] {
  const first = parts[0];
  const last = parts[parts.length - 1];
  if (
    piece.kind !== "arc" ||
    !isFullTurn(piece) ||
    !first ||
    !last ||
    first === last ||
    first.from !== 0 ||
    last.to !== 1
  )
    return parts;
  const turn = piece.to - piece.from;
  const start = piece.from + last.from * turn;
  const span = 1 - last.from + first.to;
  const joined: Stretch = {
    piece: { ...piece, from: start, to: start + span * turn },
    from: 0,
    to: 1,
    starts: "edge",
    ends: "edge",
  };
  return [...parts.slice(1, -1), joined];
}
