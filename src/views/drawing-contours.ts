/** Contours of a field map as strokes of the section plane, both halves. */
import { contours } from "d3-contour";
import type { FieldMap } from "../workbench/contract.ts";
import type { PlanePoint, Stroke } from "./drawing.ts";
import { mirrored } from "./drawing-section.ts";

export interface Contour {
  readonly level: number;
  readonly strokes: readonly Stroke[];
}

export interface LabelledContour extends Contour {
  /** Its longest line on the right half, where its number may stand. */
  readonly longest: readonly PlanePoint[];
}

/** Position along a grid axis of a contour coordinate: sample i sits at i + ½. */
function along(axis: Float64Array, coordinate: number): number {
  const at = Math.min(Math.max(coordinate - 0.5, 0), axis.length - 1);
  const i = Math.min(Math.floor(at), axis.length - 2);
  const left = axis[i] ?? 0;
  return left + (at - i) * ((axis[i + 1] ?? left) - left);
}

type Ring = number[][];

function ringsOf(map: FieldMap, values: Float64Array, levels: readonly number[]): { level: number; rings: Ring[][] }[] {
  return contours()
    .size([map.radius.length, map.height.length])
    .thresholds([...levels])(Array.from(values))
    .map(({ value, coordinates }) => ({ level: value, rings: coordinates }));
}

const pointOf = (map: FieldMap, [x = 0, y = 0]: number[]): PlanePoint => ({
  x: along(map.radius, x),
  z: along(map.height, y),
});

/** Open lines of equal value; the frame of the grid is no line. */
export function contourLines(map: FieldMap, values: Float64Array, levels: readonly number[]): LabelledContour[] {
  const columns = map.radius.length;
  const rows = map.height.length;
  const onFrame = ([x = 0, y = 0]: number[]) => x < 0.5 || y < 0.5 || x > columns - 0.5 || y > rows - 0.5;
  return ringsOf(map, values, levels).map(({ level, rings }) => {
    const lines: PlanePoint[][] = [];
    for (const ring of rings.flat()) {
      let line: PlanePoint[] = [];
      for (const corner of ring) {
        if (onFrame(corner)) {
          if (line.length > 1) lines.push(line);
          line = [];
        } else {
          line.push(pointOf(map, corner));
        }
      }
      if (line.length > 1) lines.push(line);
    }
    const longest = lines.reduce<PlanePoint[]>((best, line) => (line.length > best.length ? line : best), []);
    const strokes = lines.map((points): Stroke => ({ kind: "polyline", points, closed: false }));
    return {
      level,
      strokes: [...strokes, ...strokes.map(mirrored)],
      longest,
    };
  });
}

/** Closed areas at or above each level, to be filled one over another. */
export function contourAreas(map: FieldMap, values: Float64Array, levels: readonly number[]): Contour[] {
  return ringsOf(map, values, levels).map(({ level, rings }) => {
    const strokes = rings
      .flat()
      .map((ring): Stroke => ({ kind: "polyline", points: ring.map((c) => pointOf(map, c)), closed: true }));
    return { level, strokes: [...strokes, ...strokes.map(mirrored)] };
  });
}

/** The highest `count` of the round levels 1, 2, 5 · 10ⁿ below the greatest value. */
export function roundLevels(values: Float64Array, count: number): number[] {
  let greatest = 0;
  for (const value of values) greatest = Math.max(greatest, value);
  if (greatest === 0) return [];
  const levels: number[] = [];
  let exponent = Math.floor(Math.log10(greatest));
  while (levels.length < count && exponent > -12) {
    for (const digit of [5, 2, 1]) {
      const level = Number((digit * 10 ** exponent).toPrecision(3));
      if (level < greatest && levels.length < count) levels.unshift(level);
    }
    exponent -= 1;
  }
  return levels;
}
