/** One cycle of the bridge: which switch or diode carries the current, and where the energy goes. */

import { formatQuantity } from "../../units/format.ts";
import type { Waveforms } from "../../workbench/burst-contract.ts";
import { greatestEnergy, keepers, momentAt, momentText, type Store } from "../half-cycle.ts";
import { wrap } from "../text/wrap.ts";
import { axes, type Box, bar, dot, line, middleOf, platesSign, text, windingSign } from "./marks.ts";
import type { Mark, Picture, Point } from "./picture.ts";

export interface HalfCycleNumbers {
  readonly waves: Waveforms;
  readonly store: Store;
  readonly kind: "half" | "full";
  /** Times of the commutations of the bridge [s]. */
  readonly commutations: readonly number[];
}

/** @returns nothing where the burst has no whole cycle in its middle */
export function halfCyclePicture({ waves, store, kind, commutations }: HalfCycleNumbers): Picture | undefined {
  const first = commutations[Math.floor(commutations.length / 2) - 1];
  const third = commutations[Math.floor(commutations.length / 2) + 1];
  if (first === undefined || third === undefined || !(third > first)) return undefined;
  const span = third - first;
  const greatest = { energy: greatestEnergy(waves, store), current: 0, voltage: 0 };
  const samples = Array.from({ length: 201 }, (_, n) => momentAt(waves, store, first + (n / 200) * span));
  for (const { current, tankVoltage } of samples) {
    greatest.current = Math.max(greatest.current, Math.abs(current));
    greatest.voltage = Math.max(greatest.voltage, Math.abs(tankVoltage));
  }
  const sampled = (phase: number) => samples[Math.round(phase * 200)];
  return {
    id: "half-cycle",
    title: "Two half-cycles of the bridge",
    caption: [
      `One cycle in the middle of a burst, ${formatQuantity(span, "s", { digits: 3 })} long: the switches change when the current is about to turn, so that they break little of it.`,
      "A switch carries what the bus gives; a diode carries what comes back. The current swings through zero on its own, the tank makes it.",
    ],
    round: 12,
    still: 0.22,
    at: (phase) => {
      const moment = momentAt(waves, store, first + phase * span);
      const travelled = moment.charge / Math.max(1e-12, (greatest.current * span) / Math.PI);
      return [
        ...circuit(kind, moment.conducting, travelled),
        ...energies(moment.energy, greatest.energy),
        ...waveBox({ left: 880, top: 460, width: 640, height: 160 }, phase, (x) => {
          const one = sampled(x);
          return {
            current: (one?.current ?? 0) / greatest.current,
            voltage: (one?.tankVoltage ?? 0) / greatest.voltage,
          };
        }),
        ...lines(momentText(moment, kind)),
      ];
    },
  };
}

const top = 220;
const low = 620;
const middle = 420;
const leg = 330;
const supply = 130;
const tank = 560;

/** The loop that carries a positive current, by what conducts; each a list of corners. */
function loop(kind: "half" | "full", conducting: number): readonly Point[] {
  if (conducting === 0) return [];
  const upper = conducting <= 2;
  const rail = upper ? top : low;
  const beside = conducting === 2 || conducting === 4 ? leg + 70 : leg;
  const near = upper ? top + 40 : low - 40;
  const far = upper ? middle - 40 : middle + 40;
  const feed: Point[] = [
    [supply, rail],
    [leg, rail],
    [leg, near],
    [beside, near],
    [beside, far],
    [leg, far],
    [leg, middle],
    [tank, middle],
  ];
  const home: Point[] =
    kind === "half"
      ? [
          [tank, 690],
          [60, 690],
          [60, middle],
          [supply, middle],
        ]
      : [
          [tank, 690],
          [720, 690],
          [720, upper ? low : top],
          [supply, upper ? low : top],
        ];
  return [...feed, ...home];
}

function circuit(kind: "half" | "full", conducting: number, travelled: number): Mark[] {
  const wires: Mark[] = [
    line(
      "soft",
      [
        [supply, top],
        [leg, top],
        [leg, low],
        [supply, low],
      ],
      3,
    ),
    line(
      "soft",
      [
        [leg, middle],
        [tank, middle],
        [tank, 690],
      ],
      3,
    ),
    ...(kind === "half"
      ? [
          line(
            "soft",
            [
              [tank, 690],
              [60, 690],
              [60, middle],
              [supply, middle],
            ],
            3,
          ),
        ]
      : [
          line(
            "soft",
            [
              [leg, top],
              [720, top],
              [720, low],
              [leg, low],
            ],
            3,
          ),
          line(
            "soft",
            [
              [tank, 690],
              [720, 690],
            ],
            3,
          ),
        ]),
    line(
      "soft",
      [
        [supply, top],
        [supply, low],
      ],
      3,
    ),
  ];
  const path = loop(kind, conducting);
  return [
    ...wires,
    ...(path.length > 0 ? [line("copper", path, 6), ...dotsAlong(path, travelled)] : []),
    ...device("upper", middle - 100, conducting),
    ...device("lower", middle + 100, conducting),
    ...platesSign("electric", { x: tank, middle: middle + 70, half: 36 }),
    windingSign("magnetic", { x: tank, top: middle + 120, bottom: 670, turns: 4 }),
    ...(kind === "half"
      ? [
          ...platesSign("ink", { x: supply, middle: middle - 100, half: 34 }),
          ...platesSign("ink", { x: supply, middle: middle + 100, half: 34 }),
        ]
      : platesSign("ink", { x: supply, middle, half: 34 })),
    text([supply, top - 20], "bus +", { size: 24, tone: "soft", anchor: "middle" }),
    text([supply, low + 40], "bus −", { size: 24, tone: "soft", anchor: "middle" }),
    text([tank + 50, middle + 78], "tank", { size: 24, tone: "electric" }),
    text([tank + 50, 620], "primary", { size: 24, tone: "magnetic" }),
    ...(kind === "full" ? [text([736, middle], "second leg", { size: 24, tone: "soft" })] : []),
  ];
}

function device(side: "upper" | "lower", y: number, conducting: number): Mark[] {
  const bySwitch = side === "upper" ? 1 : 3;
  const x = leg + 70;
  const tone = (on: boolean) => (on ? "copper" : "soft");
  const onSwitch = conducting === bySwitch;
  const onDiode = conducting === bySwitch + 1;
  return [
    {
      kind: "area",
      tone: "wash",
      points: [
        [leg - 24, y - 34],
        [leg + 24, y - 34],
        [leg + 24, y + 34],
        [leg - 24, y + 34],
      ],
    },
    line(
      tone(onSwitch),
      [
        [leg - 24, y - 34],
        [leg + 24, y - 34],
        [leg + 24, y + 34],
        [leg - 24, y + 34],
        [leg - 24, y - 34],
      ],
      onSwitch ? 6 : 3,
    ),
    line(
      tone(onDiode),
      [
        [leg, y - 60],
        [x, y - 60],
        [x, y - 18],
      ],
      onDiode ? 5 : 2,
    ),
    line(
      tone(onDiode),
      [
        [leg, y + 60],
        [x, y + 60],
        [x, y + 18],
      ],
      onDiode ? 5 : 2,
    ),
    {
      kind: "area",
      tone: tone(onDiode),
      points: [
        [x, y - 18],
        [x - 20, y + 18],
        [x + 20, y + 18],
      ],
    },
    line(
      tone(onDiode),
      [
        [x - 20, y - 18],
        [x + 20, y - 18],
      ],
      5,
    ),
    text([leg - 36, y + 8], side, { size: 22, tone: onSwitch ? "copper" : "soft", anchor: "end" }),
  ];
}

/** Dots that move with the charge that has passed. */
function dotsAlong(path: readonly Point[], travelled: number): Mark[] {
  const lengths = path.slice(1).map(([x, y], n) => Math.hypot(x - (path[n]?.[0] ?? 0), y - (path[n]?.[1] ?? 0)));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const count = 14;
  return Array.from({ length: count }, (_, n) => {
    const part = ((((n + travelled * 2) / count) % 1) + 1) % 1;
    let away = part * total;
    let piece = 0;
    while (piece < lengths.length - 1 && away > (lengths[piece] ?? 0)) {
      away -= lengths[piece] ?? 0;
      piece++;
    }
    const [x1, y1] = path[piece] ?? [0, 0];
    const [x2, y2] = path[piece + 1] ?? [x1, y1];
    const share = away / Math.max(1e-9, lengths[piece] ?? 1);
    return dot("copper", [x1 + (x2 - x1) * share, y1 + (y2 - y1) * share], 9);
  });
}

function energies(energy: Readonly<Record<string, number>>, greatest: number): Mark[] {
  return keepers.flatMap(({ keeper, name }, n) => {
    const y = 200 + n * 48;
    const value = energy[keeper] ?? 0;
    const width = 250 * Math.max(0, Math.min(1, value / greatest));
    return [
      text([880, y], name, { size: 24, tone: "soft" }),
      bar(keeper === "capacitor" ? "electric" : keeper === "inductance" ? "magnetic" : "soft", {
        left: 1270,
        bottom: y + 4,
        width,
        height: 26,
      }),
    ];
  });
}

function waveBox(box: Box, phase: number, read: (x: number) => { current: number; voltage: number }): Mark[] {
  const trace = (key: "current" | "voltage"): Point[] =>
    Array.from(
      { length: 201 },
      (_, n): Point => [box.left + (n / 200) * box.width, middleOf(box, 0.9 * read(n / 200)[key])],
    );
  const now = read(phase);
  const x = box.left + phase * box.width;
  return [
    ...axes(box),
    line("copper", trace("current")),
    line("electric", trace("voltage")),
    dot("copper", [x, middleOf(box, 0.9 * now.current)]),
    dot("electric", [x, middleOf(box, 0.9 * now.voltage)]),
    text([box.left, box.top - 14], "primary current", { size: 24, tone: "copper" }),
    text([box.left + box.width, box.top - 14], "tank voltage", { size: 24, tone: "electric", anchor: "end" }),
  ];
}

/** The sentences of a moment under the waves, broken where they do not fit. */
function lines(words: string): Mark[] {
  return wrap(words, { width: 60 })
    .split("\n")
    .slice(0, 3)
    .map((one, n) => text([880, 660 + n * 32], one, { size: 22, tone: "soft" }));
}
