/** Short ways to write marks that several pictures share. */
import type { Mark, Point, Tone } from "./picture.ts";

export const line = (tone: Tone, points: readonly Point[], width = 3): Mark => ({ kind: "line", points, tone, width });
export const dashed = (tone: Tone, points: readonly Point[], width = 2): Mark => ({
  kind: "line",
  points,
  tone,
  width,
  dashed: true,
});
export const dot = (tone: Tone, at: Point, radius = 10): Mark => ({ kind: "dot", at, radius, tone });
export const text = (
  at: Point,
  words: string,
  {
    tone = "ink",
    size = 28,
    anchor = "start",
  }: { tone?: Tone; size?: number; anchor?: "start" | "middle" | "end" } = {},
): Mark => ({ kind: "text", at, text: words, tone, size, anchor });

/** A filled rectangle; `height` upward from `bottom`. */
export const bar = (
  tone: Tone,
  { left, bottom, width, height }: { left: number; bottom: number; width: number; height: number },
): Mark => ({
  kind: "area",
  tone,
  points: [
    [left, bottom],
    [left, bottom - height],
    [left + width, bottom - height],
    [left + width, bottom],
  ],
});

export const frame = ({ left, top, width, height }: Box): Mark =>
  line(
    "hair",
    [
      [left, top],
      [left + width, top],
      [left + width, top + height],
      [left, top + height],
      [left, top],
    ],
    2,
  );

/** A frame with its line of zero. */
export const axes = (box: Box): Mark[] => [
  frame(box),
  line(
    "hair",
    [
      [box.left, middleOf(box, 0)],
      [box.left + box.width, middleOf(box, 0)],
    ],
    2,
  ),
];

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A curve over 0 to 1, its values from −1 (bottom) to 1 (top) of the box. */
export function curve(tone: Tone, box: Box, value: (x: number) => number, { width = 3, steps = 400 } = {}): Mark {
  const points = Array.from({ length: steps + 1 }, (_, step): Point => {
    const x = step / steps;
    return [box.left + x * box.width, middleOf(box, value(x))];
  });
  return line(tone, points, width);
}

/** Height on the page of a value from −1 to 1. */
export const middleOf = ({ top, height }: Box, value: number): number => top + (height * (1 - value)) / 2;

/** A coil symbol: half circles along a vertical line. */
export function windingSign(
  tone: Tone,
  { x, top, bottom, turns }: { x: number; top: number; bottom: number; turns: number },
): Mark {
  const radius = (bottom - top) / turns / 2;
  const points: Point[] = [];
  for (let turn = 0; turn < turns; turn++) {
    for (let step = 0; step <= 12; step++) {
      const angle = (Math.PI * step) / 12;
      const middle = top + (2 * turn + 1) * radius;
      points.push([x + radius * Math.sin(angle), middle - radius * Math.cos(angle)]);
    }
  }
  return line(tone, points, 5);
}

/** A capacitor symbol: two plates across a vertical line. */
export function platesSign(
  tone: Tone,
  { x, middle, gap = 26, half = 50 }: { x: number; middle: number; gap?: number; half?: number },
): Mark[] {
  const plate = (y: number) =>
    line(
      tone,
      [
        [x - half, y],
        [x + half, y],
      ],
      6,
    );
  return [plate(middle - gap / 2), plate(middle + gap / 2)];
}
