/** Where the primary current goes in the diagram, by what conducts. */
import type { Coil } from "../description/coil.ts";
import { column, diodeBeside, level, rail } from "./schematic-grid.ts";
import { primarySpan } from "./schematic-load.ts";

/** As in the waveforms: 0 none, 1 upper switch, 2 upper diode, 3 lower switch, 4 lower diode. */
export type Conducting = 0 | 1 | 2 | 3 | 4;

const { capacitors: xc, firstLeg: x1, secondLeg: x2, back, primary } = column;

/** Through a leg's upper or lower device from its rail to its middle. */
function throughLeg(x: number, side: "upper" | "lower", byDiode: boolean): string {
  const y = level[side];
  const beside = x + diodeBeside;
  const [from, near, far] = side === "upper" ? [rail.plus, y - 36, y + 36] : [rail.minus, y + 36, y - 36];
  return byDiode ? `M${x} ${from}V${near}H${beside}V${far}H${x}V${rail.middle}` : `M${x} ${from}V${rail.middle}`;
}

const load = `M${x1} ${rail.middle}H${primary}V${primarySpan.top}V${primarySpan.end}V${rail.back}H${back}V${rail.middle}`;

/**
 * Pieces of the loop, each drawn the way a positive primary current runs: from the first leg through tank and primary.
 *
 * Dashes along them move that way for a positive current and the other way for a negative one.
 */
export function currentPath(kind: NonNullable<Coil["bridge"]>["kind"], conducting: Conducting): readonly string[] {
  if (conducting === 0) return [];
  const side = conducting <= 2 ? "upper" : "lower";
  const byDiode = conducting === 2 || conducting === 4;
  const near = side === "upper" ? rail.plus : rail.minus;
  const feed = `M${xc} ${level[side] + (side === "upper" ? -4 : 4)}V${near}H${x1}`;
  if (kind === "half") {
    return [
      feed,
      throughLeg(x1, side, byDiode),
      load,
      `M${back} ${rail.middle}H${xc}V${level[side] + (side === "upper" ? 4 : -4)}`,
    ];
  }
  const other = side === "upper" ? "lower" : "upper";
  const far = other === "upper" ? rail.plus : rail.minus;
  return [
    feed,
    throughLeg(x1, side, byDiode),
    load,
    `M${back} ${rail.middle}H${x2}`,
    reversed(x2, other, byDiode),
    `M${x2} ${far}H${xc}V${level[other] + (other === "upper" ? -4 : 4)}`,
    side === "upper" ? `M${xc} ${level.lower - 4}V${level.upper + 4}` : `M${xc} ${level.upper + 4}V${level.lower - 4}`,
  ];
}

/** Through the second leg from its middle to a rail. */
function reversed(x: number, side: "upper" | "lower", byDiode: boolean): string {
  const y = level[side];
  const [to, near, far] = side === "upper" ? [rail.plus, y - 36, y + 36] : [rail.minus, y + 36, y - 36];
  return byDiode ? `M${x} ${rail.middle}V${far}H${x + diodeBeside}V${near}H${x}V${to}` : `M${x} ${rail.middle}V${to}`;
}
