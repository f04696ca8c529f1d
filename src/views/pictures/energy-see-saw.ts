/** Energy that goes to and fro between the tank capacitor and the primary's inductance. */
import { formatQuantity } from "../../units/format.ts";
import { axes, type Box, bar, curve, dot, frame, line, middleOf, platesSign, text, windingSign } from "./marks.ts";
import type { Mark, Picture, Point } from "./picture.ts";

export interface TankNumbers {
  readonly capacitance: number;
  readonly inductance: number;
  /** Greatest voltage across the tank capacitor in the burst [V]. */
  readonly peakVoltage: number;
}

/**
 * The tank by itself, without loss and without its secondary: v = V·cos ωt, i = V·√(C/L)·sin ωt, ½CV² = ½LI².
 * @source lc-resonance
 */
export function energySeeSaw({ capacitance, inductance, peakVoltage }: TankNumbers): Picture {
  const frequency = 1 / (2 * Math.PI * Math.sqrt(inductance * capacitance));
  const current = peakVoltage * Math.sqrt(capacitance / inductance);
  const energy = 0.5 * capacitance * peakVoltage ** 2;
  const round = 8;
  const volts = (v: number) => formatQuantity(v, "V", { digits: 3 });
  const amperes = (i: number) => formatQuantity(i, "A", { digits: 3 });
  const joules = (w: number) => formatQuantity(w, "J", { digits: 3 });
  return {
    id: "energy-see-saw",
    title: "Energy on a see-saw",
    caption: [
      `${joules(energy)} goes from the tank capacitor (${formatQuantity(capacitance, "F")}) into the primary's field (${formatQuantity(inductance, "H")}) and back.`,
      `Greatest voltage ${volts(peakVoltage)}, greatest current ${amperes(current)}: both stand for the same energy, ½CV² = ½LI².`,
      `${formatQuantity(frequency, "Hz")}, shown ${slowness(frequency, round)} times slower; losses and the secondary are left out here.`,
    ],
    round,
    still: 0.09,
    at: (phase) => {
      const angle = 2 * Math.PI * phase;
      const v = Math.cos(angle);
      const i = Math.sin(angle);
      const electric = v * v;
      return [
        ...seeSaw(electric),
        ...energyBars(electric, joules(energy * electric), joules(energy * (1 - electric))),
        ...waves({ left: 900, top: 190, width: 620, height: 440 }, phase),
        text([900, 690], `voltage ${volts(v * peakVoltage)}`, { tone: "electric" }),
        text([1230, 690], `current ${amperes(i * current)}`, { tone: "magnetic" }),
      ];
    },
  };
}

/** How many times slower than life a round on the screen is, to two digits. */
export const slowness = (frequency: number, round: number): string =>
  Number((frequency * round).toPrecision(2))
    .toLocaleString("en-US")
    .replaceAll(",", " ");

const pivot: Point = [440, 520];
const reach = 300;

function seeSaw(electric: number): Mark[] {
  const tilt = (electric - 0.5) * 0.5;
  const end = (side: 1 | -1): Point => [
    pivot[0] + side * reach * Math.cos(tilt),
    pivot[1] - side * reach * Math.sin(tilt),
  ];
  const left = end(-1);
  const right = end(1);
  return [
    line("ink", [left, right], 8),
    { kind: "area", tone: "soft", points: [pivot, [pivot[0] - 50, 640], [pivot[0] + 50, 640]] },
    line("hair", [
      [100, 640],
      [780, 640],
    ]),
    ...platesSign("electric", { x: left[0], middle: left[1] - 60 }),
    line("electric", [[left[0], left[1] - 47], left], 3),
    windingSign("magnetic", { x: right[0], top: right[1] - 110, bottom: right[1] - 6, turns: 4 }),
  ];
}

function energyBars(electric: number, inCapacitor: string, inCoil: string): Mark[] {
  const full = 190;
  return [
    bar("electric", { left: 110, bottom: 380, width: 60, height: full * electric }),
    bar("magnetic", { left: 710, bottom: 380, width: 60, height: full * (1 - electric) }),
    frame({ left: 110, top: 380 - full, width: 60, height: full }),
    frame({ left: 710, top: 380 - full, width: 60, height: full }),
    text([190, 215], "electric field", { tone: "electric" }),
    text([190, 250], inCapacitor),
    text([690, 215], "magnetic field", { tone: "magnetic", anchor: "end" }),
    text([690, 250], inCoil, { anchor: "end" }),
  ];
}

function waves(box: Box, phase: number): Mark[] {
  const at = box.left + phase * box.width;
  return [
    ...axes(box),
    curve("electric", box, (x) => 0.9 * Math.cos(2 * Math.PI * x)),
    curve("magnetic", box, (x) => 0.9 * Math.sin(2 * Math.PI * x)),
    line(
      "soft",
      [
        [at, box.top],
        [at, box.top + box.height],
      ],
      2,
    ),
    dot("electric", [at, middleOf(box, 0.9 * Math.cos(2 * Math.PI * phase))]),
    dot("magnetic", [at, middleOf(box, 0.9 * Math.sin(2 * Math.PI * phase))]),
    text([box.left + box.width, box.top - 16], "one cycle", { tone: "soft", size: 24, anchor: "end" }),
  ];
}
