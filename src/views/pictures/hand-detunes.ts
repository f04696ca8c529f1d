/** How somebody who comes nearer pulls the resonance down. */
import { formatQuantity } from "../../units/format.ts";
import type { Approach, ApproachPoint } from "../../workbench/approach.ts";
import { type Box, dashed, dot, frame, line, text } from "./marks.ts";
import type { Mark, Picture, Point } from "./picture.ts";

/** @returns nothing where fewer than three distances were solved */
export function handDetunes({ points, alone, top }: Approach): Picture | undefined {
  const near = points[0];
  const far = points.at(-1);
  if (points.length < 3 || near === undefined || far === undefined) return undefined;
  const walk = (phase: number) =>
    far.distance + (near.distance - far.distance) * (0.5 - 0.5 * Math.cos(2 * Math.PI * phase));
  const metres = (d: number) => formatQuantity(d, "m", { digits: 2, lengths: "m" });
  return {
    id: "approach",
    title: "Somebody comes near, and the tune goes down",
    caption: [
      `A person adds capacitance to the top: at ${metres(near.distance)} the resonance falls from ${formatQuantity(alone, "Hz")} by ${formatQuantity(Math.abs(near.shift), "Hz", { digits: 2 })}, at ${metres(far.distance)} by ${formatQuantity(Math.abs(far.shift), "Hz", { digits: 2 })}.`,
      "Walls, a ceiling and the streamer itself do the same. A tune that is found with a person beside the coil is another one when they step back.",
      "Drawn with the power off. Nobody stands this near to a coil that runs.",
    ],
    round: 12,
    still: 0.5,
    at: (phase) => {
      const distance = walk(phase);
      const shift = shiftAt(points, distance);
      return [
        ...scene({ distance, farthest: far.distance, topRadius: top.radius, topHeight: top.height }),
        ...plot({ left: 900, top: 230, width: 600, height: 380 }, points, { distance, shift }),
        text([900, 670], `at ${metres(distance)}`),
        text([1500, 670], `−${formatQuantity(Math.abs(shift), "Hz", { digits: 2 })}`, {
          tone: "electric",
          anchor: "end",
        }),
      ];
    },
  };
}

function shiftAt(points: readonly ApproachPoint[], distance: number): number {
  const after = points.findIndex((point) => point.distance >= distance);
  const right = points[after === -1 ? points.length - 1 : after];
  const left = points[Math.max(0, (after === -1 ? points.length : after) - 1)];
  if (left === undefined || right === undefined) return 0;
  if (right.distance === left.distance) return right.shift;
  const part = (distance - left.distance) / (right.distance - left.distance);
  return left.shift + (right.shift - left.shift) * part;
}

function scene({
  distance,
  farthest,
  topRadius,
  topHeight,
}: {
  distance: number;
  farthest: number;
  topRadius: number;
  topHeight: number;
}): Mark[] {
  const scale = Math.min(620 / (farthest + topRadius), 420 / Math.max(1.9, topHeight + 0.2));
  const foot = 680;
  const axis = 120 + topRadius * scale;
  const person = axis + distance * scale;
  const y = (height: number) => foot - height * scale;
  const lines = 5;
  return [
    line(
      "soft",
      [
        [60, foot],
        [840, foot],
      ],
      3,
    ),
    line(
      "copper",
      [
        [axis, foot],
        [axis, y(topHeight)],
      ],
      14,
    ),
    {
      kind: "area",
      tone: "soft",
      points: ellipse(axis, y(topHeight), topRadius * scale, Math.max(10, 0.25 * topRadius * scale)),
    },
    ...Array.from({ length: lines }, (_, n): Mark => {
      const from: Point = [axis + topRadius * scale * 0.9, y(topHeight) + (n - 2) * 5];
      const to: Point = [person - 14, y(0.5 + (1.1 * n) / (lines - 1))];
      return dashed("electric", [from, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2 - 16], to]);
    }),
    dot("ink", [person, y(1.62)], Math.max(8, 0.12 * scale)),
    line(
      "ink",
      [
        [person, y(1.48)],
        [person, y(0.8)],
      ],
      Math.max(8, 0.16 * scale),
    ),
    line(
      "ink",
      [
        [person, y(0.8)],
        [person - 0.14 * scale, foot],
      ],
      Math.max(5, 0.08 * scale),
    ),
    line(
      "ink",
      [
        [person, y(0.8)],
        [person + 0.14 * scale, foot],
      ],
      Math.max(5, 0.08 * scale),
    ),
  ];
}

const ellipse = (x: number, y: number, a: number, b: number): Point[] =>
  Array.from(
    { length: 41 },
    (_, n): Point => [x + a * Math.cos((2 * Math.PI * n) / 40), y + b * Math.sin((2 * Math.PI * n) / 40)],
  );

function plot(box: Box, points: readonly ApproachPoint[], now: { distance: number; shift: number }): Mark[] {
  const farthest = points.at(-1)?.distance ?? 1;
  const deepest = Math.max(...points.map(({ shift }) => Math.abs(shift)), 1e-9);
  const place = (distance: number, shift: number): Point => [
    box.left + (distance / farthest) * box.width,
    box.top + 20 + (Math.abs(shift) / deepest) * (box.height - 60),
  ];
  return [
    frame(box),
    dashed("soft", [
      [box.left, box.top + 20],
      [box.left + box.width, box.top + 20],
    ]),
    line(
      "electric",
      points.map(({ distance, shift }) => place(distance, shift)),
      4,
    ),
    ...points.map(({ distance, shift }) => dot("electric", place(distance, shift), 5)),
    dot("ink", place(now.distance, now.shift), 12),
    text([box.left, box.top - 16], "resonance of the secondary", { size: 24, tone: "soft" }),
    text([box.left + box.width - 10, box.top + 50], "alone", { size: 22, tone: "soft", anchor: "end" }),
    text([box.left + box.width, box.top + box.height + 32], "distance from the axis", {
      size: 22,
      tone: "soft",
      anchor: "end",
    }),
  ];
}
