/** From mains to bus: which diodes carry, and why the bus ripples. */
import { formatQuantity } from "../../units/format.ts";
import { axes, type Box, curve, dot, line, middleOf, platesSign, text } from "./marks.ts";
import type { Mark, Picture, Point } from "./picture.ts";

export interface RectifierNumbers {
  /** Of the mains [V], r.m.s. */
  readonly voltage: number;
  readonly frequency: number;
  readonly rectifier: "bridge" | "doubler";
  /** Of the whole bus, all its capacitors together [F]. */
  readonly capacitance: number;
  /** What the bridge draws from the bus [A], mean. */
  readonly load: number;
}

interface Course {
  /** Two periods of the mains in equal steps: of the two capacitors of a doubler, or of the one bus of a bridge [V]. */
  readonly first: Float64Array;
  readonly second: Float64Array;
  /** 1 where the first (upper) diode carries, −1 where the second does, else 0. */
  readonly carries: Int8Array;
}

const steps = 800;
const periods = 2;

/** Ideal diodes and mains, capacitors that the load empties evenly: the picture of the idea, not of the currents. */
export function rectifierCourse({ voltage, frequency, rectifier, capacitance, load }: RectifierNumbers): Course {
  const peak = Math.SQRT2 * voltage;
  const dt = periods / frequency / steps;
  const doubles = rectifier === "doubler";
  // Two capacitors in series: each has twice the capacitance of the whole.
  const fall = (load * dt) / (doubles ? 2 * capacitance : capacitance);
  const first = new Float64Array(steps + 1);
  const second = new Float64Array(steps + 1);
  const carries = new Int8Array(steps + 1);
  let a = peak;
  let b = peak;
  // Once round for the state in which it repeats, once for the picture.
  for (let pass = 0; pass < 2; pass++) {
    for (let n = 0; n <= steps; n++) {
      const mains = peak * Math.sin((2 * Math.PI * periods * n) / steps);
      a = Math.max(a - fall, 0, doubles ? mains : Math.abs(mains));
      b = Math.max(b - fall, 0, -mains);
      first[n] = a;
      second[n] = doubles ? b : 0;
      const upper = mains > 0 && mains >= a - 1e-9;
      const lower = mains < 0 && -mains >= (doubles ? b : a) - 1e-9;
      carries[n] = upper ? 1 : lower ? -1 : 0;
    }
  }
  return { first, second, carries };
}

export function rectifierPicture(numbers: RectifierNumbers): Picture {
  const { voltage, frequency, rectifier, capacitance, load } = numbers;
  const peak = Math.SQRT2 * voltage;
  const doubles = rectifier === "doubler";
  const course = rectifierCourse(numbers);
  const bus = (n: number) => (course.first[n] ?? 0) + (course.second[n] ?? 0);
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (let n = 0; n <= steps; n++) {
    low = Math.min(low, bus(n));
    high = Math.max(high, bus(n));
  }
  return {
    id: "rectifier",
    title: doubles ? "A doubler fills two capacitors in turn" : "A rectifier fills the bus at each crest",
    caption: [
      `${formatQuantity(voltage, "V", { digits: 3 })} of mains swings to ±${formatQuantity(peak, "V", { digits: 3 })}. ${doubles ? "Each half-wave fills its own capacitor; in series they make" : "Both half-waves fill the same capacitors to"} ${formatQuantity(high, "V", { digits: 3 })}.`,
      `Between crests the bridge takes ${formatQuantity(load, "A", { digits: 2 })} out of ${formatQuantity(capacitance, "F", { digits: 3 })}: the bus falls by ${formatQuantity(high - low, "V", { digits: 2 })}.`,
      "The bus stays charged after the plug is out. A lamp that is dark or a bleeder that is fitted is no proof: wait, measure, short.",
    ],
    round: 10,
    still: 0.3,
    at: (phase) => {
      const n = Math.round(phase * steps);
      const mains = peak * Math.sin((2 * Math.PI * periods * n) / steps);
      const box = { left: 860, top: 210, width: 660, height: 430 };
      const scale = 0.92 / (doubles ? 2 * peak : peak);
      const trace = (value: (step: number) => number): Point[] =>
        Array.from(
          { length: steps + 1 },
          (_, step): Point => [box.left + (step / steps) * box.width, middleOf(box, scale * value(step))],
        );
      return [
        ...(doubles ? doublerCircuit : bridgeCircuit)(course.carries[n] ?? 0),
        ...timeBox(box, phase),
        curve("soft", box, (x) => scale * peak * Math.sin(2 * Math.PI * periods * x), { width: 2 }),
        ...(doubles
          ? [
              line(
                "hair",
                trace((step) => course.first[step] ?? 0),
                3,
              ),
              line(
                "hair",
                trace((step) => -(course.second[step] ?? 0)),
                3,
              ),
            ]
          : []),
        line("electric", trace(bus), 4),
        dot("soft", [box.left + phase * box.width, middleOf(box, scale * mains)], 8),
        dot("electric", [box.left + phase * box.width, middleOf(box, scale * bus(n))]),
        text([box.left, box.top - 16], "mains", { size: 24, tone: "soft" }),
        text([box.left + 110, box.top - 16], "bus", { size: 24, tone: "electric" }),
        text(
          [box.left + box.width, box.top - 16],
          `two periods of ${formatQuantity(frequency, "Hz", { digits: 3, trim: true })}`,
          { size: 24, tone: "soft", anchor: "end" },
        ),
        text([box.left, 700], `mains ${formatQuantity(mains, "V", { digits: 3 })}`, { tone: "soft" }),
        text([box.left + box.width, 700], `bus ${formatQuantity(bus(n), "V", { digits: 3 })}`, {
          tone: "electric",
          anchor: "end",
        }),
      ];
    },
  };
}

function timeBox(box: Box, phase: number): Mark[] {
  const x = box.left + phase * box.width;
  return [
    ...axes(box),
    line(
      "soft",
      [
        [x, box.top],
        [x, box.top + box.height],
      ],
      2,
    ),
  ];
}

const top = 230;
const low = 620;
const half = (top + low) / 2;

/** A diode on a vertical wire that carries upward. */
function diode(x: number, y: number, on: boolean): Mark[] {
  const tone = on ? "copper" : "soft";
  return [
    {
      kind: "area",
      tone,
      points: [
        [x, y - 24],
        [x - 26, y + 24],
        [x + 26, y + 24],
      ],
    },
    line(
      tone,
      [
        [x - 26, y - 24],
        [x + 26, y - 24],
      ],
      6,
    ),
  ];
}

function source(): Mark[] {
  const points = Array.from(
    { length: 41 },
    (_, n): Point => [100 - 22 + (44 * n) / 40, half - 14 * Math.sin((2 * Math.PI * n) / 40)],
  );
  return [{ kind: "dot", at: [100, half], radius: 40, tone: "ink", hollow: true }, line("ink", points, 4)];
}

function bridgeCircuit(carries: number): Mark[] {
  const upper: Point[] = [
    [100, half - 40],
    [100, 300],
    [280, 300],
    [280, top],
    [640, top],
  ];
  const back: Point[] = [
    [640, low],
    [420, low],
    [420, 560],
    [100, 560],
    [100, half + 40],
  ];
  const lowerOut: Point[] = [
    [100, half + 40],
    [100, 560],
    [420, 560],
    [420, top],
    [640, top],
  ];
  const lowerBack: Point[] = [
    [640, low],
    [280, low],
    [280, 300],
    [100, 300],
    [100, half - 40],
  ];
  return [
    ...[upper, back, lowerOut, lowerBack].map((path) => line("soft", path, 3)),
    ...(carries > 0 ? [line("copper", upper, 6), line("copper", back, 6)] : []),
    ...(carries < 0 ? [line("copper", lowerOut, 6), line("copper", lowerBack, 6)] : []),
    ...diode(280, 265, carries > 0),
    ...diode(420, 400, carries < 0),
    ...diode(280, 480, carries < 0),
    ...diode(420, 592, carries > 0),
    line(
      "soft",
      [
        [640, top],
        [640, low],
      ],
      3,
    ),
    ...platesSign("electric", { x: 640, middle: half }),
    ...source(),
    text([640, top - 24], "bus +", { size: 24, tone: "soft", anchor: "middle" }),
    text([640, low + 40], "bus −", { size: 24, tone: "soft", anchor: "middle" }),
  ];
}

function doublerCircuit(carries: number): Mark[] {
  const upper: Point[] = [
    [100, half - 40],
    [100, 320],
    [320, 320],
    [320, top],
    [640, top],
    [640, half],
  ];
  const back: Point[] = [
    [640, half],
    [200, half],
    [200, 540],
    [100, 540],
    [100, half + 40],
  ];
  const lower: Point[] = [
    [640, half],
    [640, low],
    [320, low],
    [320, 320],
    [100, 320],
    [100, half - 40],
  ];
  return [
    ...[upper, back, lower].map((path) => line("soft", path, 3)),
    ...(carries === 0 ? [] : [line("copper", carries > 0 ? upper : lower, 6), line("copper", back, 6)]),
    ...diode(320, 275, carries > 0),
    ...diode(320, 540, carries < 0),
    ...platesSign("electric", { x: 640, middle: (top + half) / 2 }),
    ...platesSign("electric", { x: 640, middle: (half + low) / 2 }),
    ...source(),
    text([640, top - 24], "bus +", { size: 24, tone: "soft", anchor: "middle" }),
    text([640, low + 40], "bus −", { size: 24, tone: "soft", anchor: "middle" }),
  ];
}
