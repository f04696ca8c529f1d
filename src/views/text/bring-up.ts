/** The bring-up sheet in lines of a terminal: each step with what the probe must show, a blank, and when to stop. */

import { formatQuantity, formatRange } from "../../units/format.ts";
import type {
  BringUp,
  BringUpStage,
  BringUpStep,
  CurrentTransformerAdvice,
  DischargeAdvice,
  EarthAdvice,
  Expectation,
  GroundLeadAdvice,
  PickupAdvice,
  PickupReading,
} from "../../workbench/bringup-contract.ts";
import { headText } from "./head.ts";
import { type Paint, painter } from "./paint.ts";
import { padded, paddedLeft, wrap } from "./wrap.ts";

interface Page {
  readonly width: number;
  readonly paint: Paint;
}

/** @param width  columns; no line is longer, words of the file left aside */
export function bringUpText({
  sheet,
  name,
  fileName,
  width = 80,
  colour = false,
}: {
  sheet: BringUp;
  name: string;
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const page: Page = { width, paint: painter(colour) };
  const { paint } = page;
  const blocks = [
    `${headText({ name, fileName, width, paint })}\n${wrap("Bring-up sheet. Date ____________  first person ____________  at the switch ____________", { width })}`,
    listBlock("read this first", sheet.cautions, page),
    dischargeBlock(sheet.discharge, page),
    listBlock("where the earth goes", [...sheet.earth, ...earthLines(sheet.earthStrap)], page),
    ...(sheet.currentTransformer ? [transformerBlock(sheet.currentTransformer, page)] : []),
    ...(sheet.pickup ? [pickupBlock(sheet.pickup, page)] : []),
    ...(sheet.groundLead ? [groundLeadBlock(sheet.groundLead, page)] : []),
    ...sheet.stages.map((stage, n) => stageBlock(stage, n, page)),
  ];
  return `${blocks.join("\n\n")}\n`;
}

const shown = (value: number, unit: string, digits = 3): string => formatQuantity(value, unit, { digits });
const metres = (value: number): string => formatQuantity(value, "m", { digits: 2, lengths: "m", trim: true });

function listBlock(title: string, lines: readonly string[], { paint, width }: Page): string {
  return [paint("bold", title), ...lines.map((line) => wrap(line, { width, first: "  - ", indent: "    " }))].join(
    "\n",
  );
}

function dischargeBlock({ time, storedEnergy, tankVoltage, steps }: DischargeAdvice, { paint, width }: Page): string {
  const facts = [
    ...(storedEnergy === undefined ? [] : [`The bus holds up to ${shown(storedEnergy, "J")}.`]),
    ...(time === undefined
      ? ["No time can be given for its discharge."]
      : [`Through the bleeder it takes ${shown(time, "s")} to 60 V, if the bleeder is whole.`]),
    ...(tankVoltage === undefined ? [] : [`The tank capacitor may be left with up to ${shown(tankVoltage, "V")}.`]),
  ];
  return [
    paint("bold", "before every touch, every time"),
    wrap(facts.join(" "), { width, first: "  " }),
    ...steps.map((line, n) => wrap(line, { width, first: `  ${n + 1}. `, indent: "     " })),
  ].join("\n");
}

function earthLines(earth: EarthAdvice | undefined): readonly string[] {
  if (!earth) return [];
  const { baseCurrent, strapVoltage, rod, says } = earth;
  return [
    `At the full bus ${shown(baseCurrent, "A")} peak go into the earth. Each metre of strap lifts the base by ${shown(strapVoltage, "V")}; a rod of ${metres(rod.length)} in loam, ${shown(rod.resistance, "Ω", 2)}, by ${shown(rod.voltage, "V", 2)}, of which a tenth is left ${metres(rod.apart)} off.`,
    ...says,
  ];
}

function groundLeadBlock({ edge, leads, says }: GroundLeadAdvice, page: Page): string {
  const facts = `The bridge's edges rise by some ${shown(edge * 1e-9, "V", 2)} in each nanosecond.`;
  const each = leads.map(
    ({ length, ringsAt, induced }) =>
      `A lead of ${shown(length, "m", 2)} rings at ${shown(ringsAt, "Hz", 2)} after an edge, and half a metre off the axis picks up ${shown(induced, "V", 2)} from the primary at the full bus.`,
  );
  return listBlock("ground lead", [facts, ...each, ...says], page);
}

function transformerBlock(
  { ratio, burden, scale, voltageAtPeak }: CurrentTransformerAdvice,
  { paint, width }: Page,
): string {
  const peak =
    voltageAtPeak === undefined ? "" : ` At the greatest predicted current it shows ${shown(voltageAtPeak, "V")}.`;
  return [
    paint("bold", "current transformer"),
    wrap(
      `1:${ratio} into ${shown(burden, "Ω")}: ${shown(scale, "A")} for each volt on the oscilloscope.${peak} Never open its secondary while current flows.`,
      { width, first: "  " },
    ),
  ].join("\n");
}

/** `Your loop of 2 turns and 100 mm diameter, 1.5 m off, into 50 Ω: 0.4 V …` */
function chosenText({ kind, size, turns, into, distance, atLowBus, atFull, limit, withinAtFull, from }: PickupReading) {
  const what =
    kind === "wire"
      ? `wire of ${shown(size, "m", 2)}`
      : `loop of ${turns} ${turns === 1 ? "turn" : "turns"} and ${shown(size, "m", 2)} diameter`;
  const input = into === "probe" ? "a 10:1 probe" : "50 Ω";
  const farther =
    from === undefined ? "nowhere within 10 m it is less: use a smaller one" : `from ${metres(from)} on it stays below`;
  const verdict = withinAtFull
    ? "three times the reading stays below that"
    : `three times the reading is more, ${farther}`;
  return (
    `Your ${what}, ${metres(distance)} off, into ${input}: ${shown(atLowBus, "V", 2)} at the low bus, ${shown(atFull, "V", 2)} at full. ` +
    `That input bears ${shown(limit, "V", 2)} at this frequency; ${verdict}.`
  );
}

function pickupBlock(
  { wireLength, loopDiameter, loopTurns, readings, chosen, wireFrom, limit, says }: PickupAdvice,
  { paint, width }: Page,
): string {
  const distances = [...new Set(readings.map(({ distance }) => distance))];
  const of = (kind: string, into: string, distance: number) =>
    readings.find((each) => each.kind === kind && each.into === into && each.distance === distance);
  const cell = (value: number | undefined) => paddedLeft(value === undefined ? "" : shown(value, "V", 2), 11);
  const rows = distances.map((distance) => {
    const [probe, terminated, loop] = [
      of("wire", "probe", distance),
      of("wire", "terminated", distance),
      of("loop", "terminated", distance),
    ];
    return `  ${padded(metres(distance), 9)}${cell(probe?.atLowBus)}${cell(probe?.atFull)}${cell(terminated?.atFull)}${cell(loop?.atLowBus)}${cell(loop?.atFull)}`;
  });
  const from =
    wireFrom === undefined
      ? `Within 10 m the wire shows more than the ${limit} V that a 10:1 probe bears at this frequency: use 50 Ω.`
      : `From ${metres(wireFrom)} on the wire stays below the ${limit} V that a 10:1 probe bears at this frequency.`;
  return [
    paint("bold", "pickup, peak voltages"),
    wrap(
      `A bare wire of ${shown(wireLength, "m", 2)}, and a loop of ${loopTurns} turn and ${shown(loopDiameter, "m", 2)} diameter into 50 Ω.`,
      { width, first: "  " },
    ),
    paint(
      "dim",
      `  ${padded("", 9)}${["10:1, low", "10:1, full", "50 Ω, full", "loop, low", "loop, full"].map((each) => paddedLeft(each, 11)).join("")}`,
    ),
    ...rows,
    wrap(from, { width, first: "  " }),
    ...(chosen ? [wrap(chosenText(chosen), { width, first: "  " })] : []),
    ...says.map((line) => wrap(line, { width, first: "  - ", indent: "    " })),
  ].join("\n");
}

function stageBlock({ title, connect, touches, steps, missing }: BringUpStage, n: number, page: Page): string {
  const { paint, width } = page;
  return [
    paint("bold", `${n + 1}  ${title}`),
    ...(touches ? [paint("stop", "  Off, pulled, discharged, measured, shorted: [ ]")] : []),
    ...connect.map((line) => wrap(line, { width, first: "  connect  ", indent: "           " })),
    ...missing.map((line) => wrap(line, { width, first: "  not in the file: ", indent: "    " })),
    ...steps.map((step, k) => stepLines(step, `${n + 1}.${k + 1}`, page)),
  ].join("\n");
}

function stepLines(step: BringUpStep, number: string, { width, paint }: Page): string {
  const line = (label: string, words: string) =>
    wrap(words, { width, first: `       ${padded(label, 9)}`, indent: `       ${padded("", 9)}` });
  const bus = step.bus > 0 ? `Bus ${shown(step.bus, "V")}. ` : "";
  return [
    wrap(`${bus}${step.does}`, { width, first: `\n  ${padded(number, 5)}`, indent: "       " }),
    line("probe", step.probe),
    ...(step.expects ? [line("expect", expectText(step.expects))] : []),
    line("picture", step.picture),
    `       ${padded("reading", 9)}${step.expects ? `____________ ${step.expects.unit === "1" ? "" : step.expects.unit}`.trimEnd() : "____________"}   seen by ______`,
    paint("stop", line("stop if", step.stop)),
    ...(step.differs.length > 0 ? [line("differs", step.differs.join("; "))] : []),
  ].join("\n");
}

const expectText = ({ unit, value, low, high }: Expectation): string =>
  `${shown(value, unit)}, between ${formatRange({ low, high }, unit, { digits: 3 })}`;
