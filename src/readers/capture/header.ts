/** What the lines before the first row say: sample interval, start, rows announced, names and units. */

import type { Decimal, Delimiter } from "./dialect.ts";
import { codesIn, type HeaderCodes, type Pair } from "./header-codes.ts";
import { headerQuantity, headerUnit } from "./header-unit.ts";
import { type HeaderKey, headerKey } from "./header-words.ts";
import { cellsOf, tokenOf } from "./token.ts";

export interface Said<T> {
  readonly value: T;
  /** Line of the file, from 1, and the text there. */
  readonly line: number;
  readonly text: string;
}

export interface HeaderFacts {
  readonly interval?: Said<number>;
  readonly start?: Said<number>;
  readonly rows?: Said<number>;
  /** The only channel's name. */
  readonly source?: Said<string>;
  readonly verticalUnit?: Said<string>;
  readonly horizontalUnit?: Said<string>;
  readonly codes?: HeaderCodes;
  /** Cells of the row of names and of the row of units below it, where there are such rows. */
  readonly names?: Said<readonly string[]>;
  readonly units?: Said<readonly string[]>;
}

/**
 * Reads the header.
 *
 * @param lines   the lines before the first row
 * @param beside  the lines after them, blank where they hold nothing but numbers: some headers stand beside the first rows
 * @param width  columns of a row
 */
export function readHeader(
  { lines, beside }: { lines: readonly string[]; beside: readonly string[] },
  { delimiter, decimal, width }: { delimiter: Delimiter; decimal: Decimal; width: number },
): HeaderFacts {
  const cut = (line: string) =>
    cellsOf(line.replace(/^\s*(?:#+|%+|\/\/+|;(?=\s)|[*!'](?=\s))\s*/, ""), delimiter).map(({ text }) => text);
  const all = [...lines, ...beside];
  const cells = all.map(cut);
  const facts: { -readonly [K in keyof HeaderFacts]: HeaderFacts[K] } = {};
  for (const pair of pairsOf(all, cells)) take(facts, pair, decimal);
  const codes = codesIn({ cells, pairs: [...pairsOf(all, cells)], decimal });
  return {
    ...facts,
    ...(codes === undefined ? {} : { codes }),
    ...namesAndUnits(cells.slice(0, lines.length), { decimal, width }),
  };
}

/** Key and value stand side by side, one above the other, or in one cell with `:` or `=` between. */
function* pairsOf(lines: readonly string[], cells: readonly (readonly string[])[]): Generator<Pair> {
  for (const [row, line] of cells.entries()) {
    for (const [column, key] of line.entries()) {
      const within = /^(.*?)\s*[:=]\s*(\S.*)$/.exec(key);
      if (within !== null) yield { key: within[1] ?? "", value: within[2] ?? "", line: row + 1 };
      const right = line[column + 1];
      if (right !== undefined && right !== "") {
        const further = line[column + 2] ?? "";
        // `Sample Interval,4.0,us` has its unit in a cell of its own.
        yield { key, value: headerUnit(further) ? `${right} ${further}` : right, line: row + 1 };
      }
      const below = cells[row + 1]?.[column];
      if (below !== undefined && below !== "") yield { key, value: below, line: row + 1 };
    }
    // With spaces as delimiter the key itself is cut apart; the whole line is tried too.
    const whole = /^\s*[#%/]*\s*([^:=\d]+?)\s*[:=,;\t ]\s*([+-]?[\d.,]+(?:[eE][+-]?\d+)?\s*\S*)\s*$/.exec(
      lines[row] ?? "",
    );
    if (whole !== null) yield { key: whole[1] ?? "", value: whole[2] ?? "", line: row + 1 };
    // `:PRE:XINCR 4E-8;YMULT 0.02`: an instrument's answer, as it stands.
    const answers = (lines[row] ?? "").split(";");
    if (answers.length > 1)
      for (const answer of answers) {
        const said = /^\s*[#%/]*\s*(?::?\w+:)*([A-Za-z_]+)[ :=]+"?([^"]+?)"?\s*$/.exec(answer);
        if (said !== null) yield { key: said[1] ?? "", value: said[2] ?? "", line: row + 1 };
      }
  }
}

function take(facts: { -readonly [K in keyof HeaderFacts]: HeaderFacts[K] }, pair: Pair, decimal: Decimal): void {
  const found = headerKey(pair.key);
  if (found === undefined) return;
  const said = <T>(value: T): Said<T> => ({ value, line: pair.line, text: `${pair.key.trim()} ${pair.value.trim()}` });
  const quantity = (wanted: "time" | "frequency") => {
    const unit = headerUnit(found.unit);
    // Behind a unit that is not understood a bare number says nothing.
    if (found.unit !== "" && unit === undefined && /^[-+\d.,eE]+$/.test(pair.value.trim())) return undefined;
    const bare = unit?.dimension === wanted ? unit.factor : 1;
    return headerQuantity(pair.value, { wanted, decimal, bare });
  };
  const readers: Readonly<Partial<Record<HeaderKey, () => void>>> = {
    interval: () => {
      const value = quantity("time");
      if (value !== undefined && value > 0) facts.interval ??= said(value);
    },
    rate: () => {
      const value = quantity("frequency");
      if (value !== undefined && value > 0) facts.interval ??= said(1 / value);
    },
    start: () => {
      const value = quantity("time");
      if (value !== undefined) facts.start ??= said(value);
    },
    rows: () => {
      const value = Number(pair.value.replace(/\s*(?:pts|points|samples)$/i, ""));
      if (Number.isInteger(value) && value > 0) facts.rows ??= said(value);
    },
    source: () => {
      if (/^[A-Za-z][\w .-]{0,30}$/.test(pair.value)) facts.source ??= said(pair.value.trim());
    },
    verticalUnit: () => {
      if (headerUnit(pair.value)) facts.verticalUnit ??= said(pair.value);
    },
    horizontalUnit: () => {
      if (headerUnit(pair.value)) facts.horizontalUnit ??= said(pair.value);
    },
  };
  readers[found.key]?.();
}

/** The last row of texts that is as wide as the rows is the names; where its cells are units, the row before it is. */
function namesAndUnits(
  cells: readonly (readonly string[])[],
  { decimal, width }: { decimal: Decimal; width: number },
): Pick<HeaderFacts, "names" | "units"> {
  const isWords = (row: readonly string[] | undefined): row is readonly string[] =>
    row !== undefined &&
    !isKeyLine(row) &&
    Math.abs(row.length - width) <= 1 &&
    row.some((cell) => tokenOf(cell, decimal).kind === "text") &&
    row.filter((cell) => tokenOf(cell, decimal).kind === "number").length <= row.length / 2;
  // Above a row of units the names may be numbers: `x-axis,1,2`.
  const mayName = (row: readonly string[]) =>
    !isKeyLine(row) && Math.abs(row.length - width) <= 1 && row.some((cell) => tokenOf(cell, decimal).kind === "text");
  const rows = cells
    .map((row, index) => ({ row: withoutLabel(row, width), line: index + 1 }))
    .filter(({ row }) => row.some((cell) => !isRule.test(cell)));
  const last = rows.at(-1);
  if (last === undefined || !isWords(last.row)) return {};
  const said = ({ row, line }: { row: readonly string[]; line: number }): Said<readonly string[]> => ({
    value: row,
    line,
    text: row.join(" "),
  });
  const before = rows.at(-2);
  if (!isUnits(last.row, decimal) || before === undefined || !mayName(before.row))
    return isUnits(last.row, decimal) && !last.row.some((cell) => /^[tx]$/i.test(cell))
      ? { units: said(last) }
      : { names: said(last) };
  return { names: said(before), units: said(last) };
}

/** An empty cell, or a line drawn below the names. */
const isRule = /^(?:|:?[-=_]+:?)$/;

/** `columns: time ct` has a label before the names. */
const withoutLabel = (row: readonly string[], width: number) =>
  row.length === width + 1 && /^[^\s:]+:$/.test(row[0] ?? "") ? row.slice(1) : row;

/** A key with its value names no columns. */
function isKeyLine([first = "", second = ""]: readonly string[]): boolean {
  const within = /^(?:#|%|\s)*([^:=]+)[:=]/.exec(first)?.[1];
  const key = headerKey(within ?? first)?.key;
  if ((key === "verticalUnit" || key === "horizontalUnit") && headerUnit(second) !== undefined) return true;
  if (/^:?[A-Z]+:[A-Z]+ |^\w+\s*=\s*\S/i.test(first)) return true;
  return key !== undefined && (within !== undefined || /\d/.test(second));
}

/** Every text of the row names a unit, or that rows are counted. */
function isUnits(row: readonly string[], decimal: Decimal): boolean {
  const words = row.filter((cell) => tokenOf(cell, decimal).kind === "text");
  return (
    words.some((cell) => headerUnit(cell) !== undefined) &&
    words.every(
      (cell) =>
        headerUnit(cell) !== undefined || /^[([]?\s*(?:sequence|samples?|points?|-|1|a\.?u\.?)\s*[)\]]?$/i.test(cell),
    )
  );
}
