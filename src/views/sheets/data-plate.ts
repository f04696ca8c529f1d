/** The coil on one page: section to scale, main numbers, and what to keep in mind beside it. */

import { quantities } from "../../catalogue/quantities.ts";
import { formatRange } from "../../units/format.ts";
import { type Drawing, drawing, type Material } from "../drawing.ts";
import { amountText } from "../text/amount.ts";
import { Flow } from "./flow.ts";
import { framed } from "./frame.ts";
import { type At, type Box, type Item, mapPoints, polyline, type Tone, weight } from "./page.ts";
import { formatOf } from "./paper.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { shapeSegments } from "./strokes.ts";
import { drawnWord } from "./tiles.ts";
import { lengthText, shown } from "./words.ts";

const mm = 1e-3;

const materials: Readonly<Partial<Record<Material, { tone: Tone; width: number; fill?: Tone }>>> = {
  topload: { tone: "steel", width: weight.strong },
  former: { tone: "soft", width: weight.thin },
  winding: { tone: "copper", width: weight.line, fill: "wash" },
  primary: { tone: "copper", width: weight.line },
  primaryUnused: { tone: "rule", width: weight.thin },
  strikeRing: { tone: "steel", width: weight.line },
  axis: { tone: "rule", width: weight.fine },
  ground: { tone: "ink", width: weight.strong },
};

/** Scales that a rule can be read against. */
const scales = [1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50];

const figures = [
  "secondary.f1",
  "secondary.inductance",
  "secondary.resistanceAc",
  "secondary.qUnloaded",
  "topload.capacitanceInPlace",
  "topload.breakoutVoltage",
  "primary.inductance",
  "tank.capacitance",
  "tank.frequency",
  "coupling.kMode1",
  "poles.lower",
  "poles.upper",
  "tuning.ratio",
  "bus.peakVoltage",
  "bus.storedEnergy",
  "bus.dischargeTime",
  "burst.peakPrimaryCurrent",
  "burst.peakTankVoltage",
  "burst.peakTopVoltage",
  "burst.streamerLength",
  "mains.power",
  "switch.junctionPeak",
] as const;

function section(
  drawn: Drawing,
  subject: SheetSubject,
  setting: SheetSetting,
  room: Box,
): { items: Item[]; scale: string } {
  const { left, right, bottom, top } = drawn.coilBox;
  const side = 26 * mm;
  const needed = Math.max((right - left) / (room.width - 2 * side), (top - bottom) / (room.height - 16 * mm));
  const ratio = scales.find((one) => one >= needed) ?? Math.ceil(needed);
  const scale = 1 / ratio;
  const middle = room.x + room.width / 2;
  const low = room.y + room.height - 6 * mm;
  const place = ({ x, z }: { x: number; z: number }): At => ({ x: middle + x * scale, y: low - z * scale });
  const items: Item[] = drawn.shapes.flatMap(({ material, strokes }): Item[] => {
    const look = materials[material];
    if (!look) return [];
    const wide = mapPoints(shapeSegments(strokes, { place, scale }), (at) => ({
      x: Math.min(Math.max(at.x, room.x), room.x + room.width),
      y: at.y,
    }));
    return [
      {
        kind: "path",
        segments: wide,
        ...look,
        ...(material === "axis" ? { dash: [4 * mm, 1 * mm, 0.6 * mm, 1 * mm] } : {}),
      },
    ];
  });
  const { secondary } = subject.coil;
  const heights = [
    { says: "top", z: top },
    { says: "winding, upper end", z: secondary.baseHeight + secondary.length },
    { says: "winding, lower end", z: secondary.baseHeight },
  ];
  const x = middle + right * scale + 3 * mm;
  const marks = heights.flatMap(({ says, z }): Item[] => {
    const y = place({ x: 0, z }).y;
    return [
      {
        kind: "path",
        segments: polyline([
          { x: x - 2 * mm, y },
          { x: x + 2 * mm, y },
        ]),
        width: weight.thin,
        tone: "guide",
      },
      drawnWord(lengthText(z, setting), { x: x + 3 * mm, y: y - 0.3 * mm }, { anchor: "start", width: side }),
      drawnWord(says, { x: x + 3 * mm, y: y + 2.6 * mm }, { anchor: "start", size: 2.1 * mm, width: side }),
    ];
  });
  return { items: [...items, ...marks], scale: `1 : ${ratio}` };
}

function lay(subject: SheetSubject, setting: SheetSetting) {
  const format = formatOf(setting.paper);
  const flow = new Flow(format.body);
  flow.title(
    subject.coil.name || "Coil without a name",
    "Data plate: the coil as drawn, and what is predicted for it. Predictions are not measurements.",
  );
  const drawn = drawing(subject.coil, subject.file.provenances);
  const height = flow.area.height - 122 * mm;
  let scale = "–";
  flow.block(height, (y) => {
    const made = section(drawn, subject, setting, { x: flow.area.x, y, width: flow.area.width, height });
    scale = made.scale;
    return made.items;
  });
  flow.gap(2 * mm);
  const rows = figures.flatMap((id): string[][] => {
    const figure = subject.study.figures.get(id) ?? subject.solution.figures.get(id);
    const quantity = quantities.get(id);
    if (!figure || !quantity) return [];
    const text =
      quantity.unit === "m"
        ? lengthText(figure.value, setting, 3)
        : quantity.unit === "°C"
          ? `${figure.value.toFixed(0)}\u00a0°C`
          : amountText(figure.value, quantity.unit, { digits: 4 });
    const range =
      figure.low === undefined || figure.high === undefined
        ? ""
        : formatRange({ low: figure.low, high: figure.high }, quantity.unit, { digits: 3, lengths: setting.lengths });
    return [[`${quantity.group}, ${quantity.name}`, text, range]];
  });
  const half = Math.ceil(rows.length / 2);
  const columns = [
    { head: "predicted", share: 0.24 },
    { head: "value", share: 0.115, face: "bold", align: "end" },
    { head: "range", share: 0.145, align: "end" },
  ] as const;
  flow.table(
    [...columns, ...columns],
    Array.from({ length: half }, (_, n) => [...(rows[n] ?? []), ...(rows[n + half] ?? ["", "", ""])]),
    { size: 2.35 * mm },
  );
  settingOf(flow, subject);
  flow.gap(1 * mm);
  flow.caution([
    "High voltage, mains and stored energy can kill. The top, the primary and everything behind the rectifier are live, with the coil silent too.",
    "Keep implants, hearing aids and phones away, and people behind the line of the show-day sheet. This plate is no permission to switch on.",
  ]);
  return framed(flow.pages, { subject, setting, format, title: "Data plate", scale });
}

function settingOf(flow: Flow, { study }: SheetSubject): void {
  const { onTime, rate, busVoltage } = study.setting;
  if (!(onTime > 0)) return;
  flow.words(
    `At on-time ${shown(onTime, "s")}, rate ${shown(rate, "Hz")}, bus ${shown(busVoltage, "V", 3)}. Ranges are those that the figures carry; coilwright doubt gives the others.`,
    { size: 2.4 * mm, tone: "soft" },
  );
}

export const dataPlate: Sheet = {
  id: "data-plate",
  title: "Data plate",
  says: "section to scale and main numbers, on one page",
  needs: ["secondary.f1"],
  lay,
};
