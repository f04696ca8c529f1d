/** The primary as it is bent: a spiral through the turns that the model reckons with as circles. */
import type { Primary } from "../../description/coil.ts";
import type { Metre } from "../../units/si.ts";
import type { Layer, Track, TrackPoint } from "./track.ts";

/** Straight pieces would cut the corner; arcs of this angle leave the spiral by micrometres. */
const step = Math.PI / 24;

/**
 * Distance of the conductor's centre line from the axis, in plan, after `turn` turns.
 *
 * Turn k begins on the circle that the model gives it: radius = firstTurnDiameter/2 + k·pitch·cos(angle).
 */
export const radiusAfter = ({ firstTurnDiameter, pitch, angle }: Primary, turn: number): Metre =>
  firstTurnDiameter / 2 + pitch * Math.cos(angle) * turn;

/** Width of the conductor as it is seen from above. */
export function conductorWidth({ conductor }: Primary): Metre {
  if ("tube" in conductor) return conductor.tube;
  return "wire" in conductor ? conductor.wire : conductor.trace.width;
}

interface SpiralPart {
  readonly primary: Primary;
  /** Turns from and to. */
  readonly from: number;
  readonly to: number;
  /** Outward from the centre line. */
  readonly offset: Metre;
  /** Seen from the other face. */
  readonly mirrored?: boolean;
}

/** Points along a spiral, each with the bulge of the arc to the next. Starts on the positive x axis at turn 0, anticlockwise. */
export function spiralPoints({ primary, from, to, offset, mirrored = false }: SpiralPart): TrackPoint[] {
  const count = Math.max(1, Math.ceil((Math.abs(to - from) * 2 * Math.PI) / step));
  const hand = mirrored ? -1 : 1;
  const bulge = hand * Math.sign(to - from) * Math.tan((Math.abs(to - from) * 2 * Math.PI) / count / 4) || 0;
  return Array.from({ length: count + 1 }, (_, n): TrackPoint => {
    const turn = from + ((to - from) * n) / count;
    const radius = radiusAfter(primary, turn) + offset;
    const angle = hand * 2 * Math.PI * turn;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle), ...(n < count ? { bulge } : {}) };
  });
}

/** The centre line over a range of turns. */
export const centreLine = (layer: Layer, part: Omit<SpiralPart, "offset">): Track => ({
  kind: "chain",
  layer,
  points: spiralPoints({ ...part, offset: 0 }),
  closed: false,
});

/**
 * The outline of a conductor of the primary's width along its spiral, with round ends.
 *
 * @validity  offset along the radius instead of the normal: wrong by width/2·(1 − cos(pitch/2πr)), under 2 µm for a pitch of a tenth of the radius
 */
export function bandOutline(layer: Layer, part: Omit<SpiralPart, "offset">): Track {
  const half = conductorWidth(part.primary) / 2;
  const outward = spiralPoints({ ...part, offset: half });
  const back = spiralPoints({ ...part, from: part.to, to: part.from, offset: -half });
  // half a circle round each end
  const cap = part.mirrored ? -1 : 1;
  const capped = (points: TrackPoint[]): TrackPoint[] =>
    points.map((point, n) => (n === points.length - 1 ? { ...point, bulge: cap } : point));
  return { kind: "chain", layer, points: [...capped(outward), ...capped(back)], closed: true };
}
