/** Mains to bus: terminals, fuse, inrush limiter, rectifier or doubler, bus capacitors, bleeders. */
import type { Coil } from "../description/coil.ts";
import type { Strokes } from "./schematic-data.ts";
import { column, level, rail } from "./schematic-grid.ts";
import {
  capacitorUpright,
  diodeUp,
  fuse,
  rectifierBlock,
  resistorUpright,
  terminal,
  thermistor,
} from "./schematic-symbols.ts";
import { label, notInFile, pin, reservoirText, valueText } from "./schematic-text.ts";

const lineIn = rail.middle - 20;
const neutralIn = rail.middle + 20;

export function supplyStrokes({ supply }: Coil): Strokes {
  const isDoubler = supply?.rectifier === "doubler";
  const { terminals: x0, fuse: xf, inrush: xi, rectifier: xr, capacitors: xc, bleeder: xb } = column;
  const each = supply?.capacitors;
  const bank =
    each && each.series * each.parallel > 1 ? `${each.series} in series, ${each.parallel} side by side` : undefined;
  // where one bank stands for both, the model counts it as two halves of twice the capacitance
  const halves = supply && !isDoubler ? "one bank, as two halves" : undefined;
  return {
    wires: [
      `M${x0 + 5} ${lineIn}H${xf - 20}M${xf + 20} ${lineIn}H${xi - 20}`,
      isDoubler
        ? `M${xi + 20} ${lineIn}H${xr}M${xr} ${rail.plus}V${level.upper - 9}M${xr} ${level.upper + 9}V${level.lower - 9}M${xr} ${level.lower + 9}V${rail.minus}M${x0 + 5} ${neutralIn}H${xr + 56}V${rail.middle}H${xc}`
        : `M${xi + 20} ${lineIn}H${xr - 32}M${x0 + 5} ${neutralIn}H${xr - 32}M${xr} ${rail.middle - 32}V${rail.plus}M${xr} ${rail.middle + 32}V${rail.minus}`,
      `M${xr} ${rail.plus}H${column.firstLeg}M${xr} ${rail.minus}H${column.firstLeg}`,
      `M${xc} ${rail.plus}V${level.upper - 4}M${xc} ${level.upper + 4}V${level.lower - 4}M${xc} ${level.lower + 4}V${rail.minus}`,
      `M${xb} ${rail.plus}V${level.upper - 16}M${xb} ${level.upper + 16}V${level.lower - 16}M${xb} ${level.lower + 16}V${rail.minus}M${xc} ${rail.middle}H${xb}`,
    ],
    symbols: [
      { part: "mains", path: terminal({ x: x0, y: lineIn }) + terminal({ x: x0, y: neutralIn }) },
      { part: "fuse", path: fuse({ x: xf, y: lineIn }) },
      { part: "inrush", path: thermistor({ x: xi, y: lineIn }) },
      {
        part: "rectifier",
        path: isDoubler
          ? diodeUp({ x: xr, y: level.upper }) + diodeUp({ x: xr, y: level.lower })
          : rectifierBlock({ x: xr, y: rail.middle }),
      },
      {
        part: "capacitors",
        path: capacitorUpright({ x: xc, y: level.upper }) + capacitorUpright({ x: xc, y: level.lower }),
      },
      {
        part: "bleeder",
        path: resistorUpright({ x: xb, y: level.upper }) + resistorUpright({ x: xb, y: level.lower }),
      },
    ],
    dots: [
      ...[xc, xb].flatMap((x) => [rail.plus, rail.minus].map((y) => ({ x, y }))),
      { x: xc, y: rail.middle },
      { x: xb, y: rail.middle },
      ...(isDoubler ? [{ x: xr, y: lineIn }] : []),
    ],
    texts: [
      pin({ x: x0, y: lineIn - 11 }, "L"),
      pin({ x: x0, y: neutralIn + 21 }, "N"),
      pin({ x: xr + 8, y: rail.plus - 6 }, "+", "start"),
      pin({ x: xr + 8, y: rail.minus + 15 }, "−", "start"),
      pin({ x: xc - 17, y: level.upper - 9 }, "+"),
      pin({ x: xc - 17, y: level.lower - 9 }, "+"),
      ...(isDoubler
        ? []
        : [pin({ x: xr - 22, y: rail.middle - 16 }, "~"), pin({ x: xr + 21, y: rail.middle - 16 }, "=")]),
      ...label(
        { x: x0 - 16, y: neutralIn + 50 },
        "mains",
        [
          "mains",
          supply ? valueText(supply.mains.voltage, "V") : notInFile,
          supply && valueText(supply.mains.frequency, "Hz"),
        ],
        "start",
      ),
      ...label({ x: xf, y: lineIn - 38 }, "fuse", ["fuse", supply?.fuse ? valueText(supply.fuse, "A") : notInFile]),
      ...label({ x: xi, y: lineIn - 38 }, "inrush", [
        "inrush",
        supply?.inrush ? valueText(supply.inrush.ntc, "Ω") : notInFile,
      ]),
      ...label(
        { x: xr - (isDoubler ? 14 : 38), y: isDoubler ? level.lower - 2 : rail.middle + 54 },
        "rectifier",
        [isDoubler ? "doubler" : "rectifier", supply ? undefined : notInFile],
        "end",
      ),
      ...label({ x: xc - 22, y: rail.minus + 22 }, "capacitors", [
        "bus capacitors",
        each ? `${reservoirText(each.each)}, ${valueText(each.voltage, "V")} each` : notInFile,
        bank ?? halves,
      ]),
      ...label(
        { x: xb + 12, y: rail.middle - 31 },
        "bleeder",
        ["bleeder", each?.bleeder ? valueText(each.bleeder, "Ω") : notInFile],
        "start",
      ),
    ],
    boxes: [
      {
        part: "mains",
        name: "mains",
        x: x0 - 24,
        y: lineIn - 32,
        width: 56,
        height: 140,
        inFile: supply !== undefined,
      },
      {
        part: "fuse",
        name: "fuse",
        x: xf - 36,
        y: lineIn - 54,
        width: 72,
        height: 74,
        inFile: supply?.fuse !== undefined,
      },
      {
        part: "inrush",
        name: "inrush limiter",
        x: xi - 44,
        y: lineIn - 54,
        width: 88,
        height: 76,
        inFile: supply?.inrush !== undefined,
      },
      {
        part: "rectifier",
        name: isDoubler ? "doubler" : "rectifier",
        x: xr - (isDoubler ? 72 : 36),
        y: isDoubler ? level.upper - 24 : rail.middle - 36,
        width: isDoubler ? 100 : 72,
        height: isDoubler ? 188 : 72,
        inFile: supply !== undefined,
      },
      {
        part: "capacitors",
        name: "bus capacitors",
        x: xc - 34,
        y: level.upper - 28,
        width: 60,
        height: 196,
        gauge: { x: xc + 41, y: level.lower + 32 },
        inFile: supply !== undefined,
      },
      {
        part: "bleeder",
        name: "bleeders",
        x: xb - 14,
        y: level.upper - 26,
        width: 82,
        height: 192,
        inFile: each?.bleeder !== undefined,
      },
    ],
  };
}
