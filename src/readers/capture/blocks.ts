/** Channels that an instrument wrote one below the other: blocks of as many rows, each with the same times. */
import type { Dialect } from "./dialect.ts";
import type { Times } from "./growing.ts";
import { readHeader } from "./header.ts";
import { headerUnit, nameAndUnit } from "./header-unit.ts";
import type { Break } from "./rows.ts";

export interface Blocks {
  /** Rows of each. */
  readonly length: number;
  /** First row of each, from 0. */
  readonly starts: readonly number[];
}

/** Instruments have no more channels than this. */
const mostBlocks = 64;

/**
 * @param times   [rows]; undefined where the file has no time column: then text stands between the blocks
 * @param breaks  rows before which text stands
 * @returns  undefined where the rows are one block
 */
export function blocksOf({
  times,
  breaks,
  rows,
}: {
  times: Times | undefined;
  breaks: readonly Break[];
  rows: number;
}): Blocks | undefined {
  const starts = [
    0,
    ...(times === undefined ? breaks.map(({ row }) => row).filter((row) => row > 0) : setBacks(times)),
  ];
  const length = starts[1] ?? 0;
  if (starts.length < 2 || starts.length > mostBlocks || length < 2 || length * starts.length !== rows)
    return undefined;
  if (starts.some((start, block) => start !== block * length)) return undefined;
  return times === undefined || sameTimes(times, { length, starts }) ? { length, starts } : undefined;
}

/** Rows whose time is before that of the row above; no more than are needed to see that they are too many. */
function setBacks(times: Times): readonly number[] {
  const found: number[] = [];
  if (times.rising === true) return found;
  for (let row = 1, before = times.at(0); row < times.length && found.length <= mostBlocks; row++) {
    const at = times.at(row);
    if (at < before) found.push(row);
    before = at;
  }
  return found;
}

function sameTimes(times: Times, { length, starts }: Blocks): boolean {
  const step = (times.at(length - 1) - times.at(0)) / (length - 1);
  for (let row = 0; row < length; row++)
    for (const start of starts) if (!(Math.abs(times.at(start + row) - times.at(row)) <= 0.25 * step)) return false;
  return true;
}

/** Names and units of the columns, from the lines above a block; columns that they do not name are left out. */
export function namesOfBlock(
  lines: readonly string[],
  { delimiter, decimal, columns }: Dialect,
): Readonly<Record<number, { readonly name: string; readonly unit?: string; readonly factor?: number }>> {
  const header = readHeader({ lines, beside: [] }, { delimiter, decimal, width: columns.length });
  const found: Record<number, { name: string; unit?: string; factor?: number }> = {};
  for (const [column, { use }] of columns.entries()) {
    if (use !== "channel") continue;
    const written = nameAndUnit(header.names?.value[column] ?? "");
    const unit = headerUnit(header.units?.value[column] ?? "") ?? written.unit;
    found[column] = {
      name: header.source?.value ?? written.name,
      ...(unit === undefined ? {} : { unit: unit.unit, factor: unit.factor }),
    };
  }
  return found;
}
