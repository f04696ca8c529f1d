/** Tank and secondary as two pendulums with a spring between: two poles beat. */
import { formatQuantity } from "../../units/format.ts";
import { slowness } from "./energy-see-saw.ts";
import { type Box, bar, curve, dot, frame, line, middleOf, text } from "./marks.ts";
import type { Mark, Picture, Point } from "./picture.ts";

export interface PoleNumbers {
  readonly lower: number;
  readonly upper: number;
  readonly coupling: number;
}

/**
 * Both circuits tuned alike, without loss, the tank pushed once: x₁ = ½(cos ω₁t + cos ω₂t), x₂ = ½(cos ω₁t − cos ω₂t). The energy is across
 * after half a beat, 1/(2(f₂ − f₁)).
 * @source coupled-poles
 */
export function twoPendulums({ lower, upper, coupling }: PoleNumbers): Picture {
  const beat = upper - lower;
  const beats = beatsInRound(lower / beat);
  const round = 12 * beats;
  const swing = (phase: number, sign: 1 | -1) => {
    const time = (phase * beats) / beat;
    return 0.5 * (Math.cos(2 * Math.PI * lower * time) + sign * Math.cos(2 * Math.PI * upper * time));
  };
  return {
    id: "two-pendulums",
    title: "Two pendulums that beat",
    caption: [
      `Tank and secondary hang on one spring: the coupling, k = ${coupling.toFixed(3)}. Alone they swing alike; together they have two poles, ${formatQuantity(lower, "Hz")} and ${formatQuantity(upper, "Hz")}.`,
      `The swing is across after ${formatQuantity(1 / (2 * beat), "s", { digits: 3 })}, about ${Math.max(1, Math.round((lower + upper) / 4 / beat))} cycles, and comes back: a beat at ${formatQuantity(beat, "Hz")}.`,
      `Shown ${slowness(beat, 12)} times slower, for a tank pushed once and left alone; losses are left out here.`,
    ],
    round,
    still: 0.13 / beats,
    at: (phase) => {
      const first = swing(phase, 1);
      const second = swing(phase, -1);
      const tank = Math.cos(Math.PI * phase * beats) ** 2;
      const box = { left: 820, width: 700, height: 180 };
      return [
        line(
          "ink",
          [
            [120, 200],
            [720, 200],
          ],
          8,
        ),
        ...pendulums(first, second),
        bar("electric", { left: 150, bottom: 730, width: 200 * tank, height: 26 }),
        bar("magnetic", { left: 490, bottom: 730, width: 200 * (1 - tank), height: 26 }),
        text([150, 690], "energy in the tank", { size: 24, tone: "electric" }),
        text([490, 690], "in the secondary", { size: 24, tone: "magnetic" }),
        ...record({ ...box, top: 210 }, "tank", "electric", phase, (x) => swing(x, 1)),
        ...record({ ...box, top: 480 }, "secondary", "magnetic", phase, (x) => swing(x, -1)),
      ];
    },
  };
}

/** So many beats that the swings, too, come round: the picture then has no jump. */
function beatsInRound(swingsInBeat: number): number {
  let best = 1;
  for (let beats = 1; beats <= 4; beats++) {
    const off = (count: number) => Math.abs(count * swingsInBeat - Math.round(count * swingsInBeat));
    if (off(beats) < off(best) - 0.02) best = beats;
  }
  return best;
}

function pendulums(first: number, second: number): Mark[] {
  const bob = (hang: number, swing: number): Point => {
    const angle = 0.5 * swing;
    return [hang + 380 * Math.sin(angle), 200 + 380 * Math.cos(angle)];
  };
  const along = (hang: number, swing: number): Point => {
    const angle = 0.5 * swing;
    return [hang + 190 * Math.sin(angle), 200 + 190 * Math.cos(angle)];
  };
  const left = bob(250, first);
  const right = bob(590, second);
  return [
    spring(along(250, first), along(590, second)),
    line("soft", [[250, 200], left], 4),
    line("soft", [[590, 200], right], 4),
    dot("electric", left, 34),
    dot("magnetic", right, 34),
    text([250, 170], "tank", { anchor: "middle", tone: "electric" }),
    text([590, 170], "secondary", { anchor: "middle", tone: "magnetic" }),
  ];
}

function spring([x1, y1]: Point, [x2, y2]: Point): Mark {
  const turns = 24;
  const points = Array.from({ length: turns + 1 }, (_, turn): Point => {
    const part = turn / turns;
    const across = turn === 0 || turn === turns ? 0 : turn % 2 === 0 ? 10 : -10;
    return [x1 + (x2 - x1) * part, y1 + (y2 - y1) * part + across];
  });
  return line("copper", points, 3);
}

function record(
  box: Box,
  name: string,
  tone: "electric" | "magnetic",
  phase: number,
  value: (x: number) => number,
): Mark[] {
  const at = box.left + phase * box.width;
  return [
    frame(box),
    text([box.left, box.top - 14], name, { tone, size: 24 }),
    curve(tone, box, (x) => 0.95 * value(x), { width: 2, steps: 1200 }),
    dot(tone, [at, middleOf(box, 0.95 * value(phase))]),
  ];
}
