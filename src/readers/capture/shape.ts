/** Which delimiter, which decimal sign, and where the rows begin: every pair is tried on the first lines, the best is taken. */
import { clockTime } from "./clock.ts";
import type { CaptureSettings, Decimal, Delimiter } from "./dialect.ts";
import { type Cell, cellsOf, type Token, tokenOf } from "./token.ts";

export interface Shape {
  readonly delimiter: Delimiter;
  readonly decimal: Decimal;
  readonly headerLines: number;
  /** Columns of a row, empty ones at its end left out. */
  readonly width: number;
  /** Columns that hold numbers in the rows. */
  readonly numeric: readonly number[];
  /** The rows among the lines that were looked at. */
  readonly rows: readonly (readonly Token[])[];
  /** The decimal sign was seen to be one: some number has it. */
  readonly decimalSeen: boolean;
  /** How many of the lines looked at are rows, of how many from the first row on. */
  readonly fits: number;
  readonly of: number;
}

export const delimiterWords: Readonly<Record<Delimiter, string>> = {
  ",": "commas",
  ";": "semicolons",
  "\t": "tabs",
  " ": "spaces",
  "|": "bars",
};
const delimiters = Object.keys(delimiterWords) as readonly Delimiter[];

/** Best shape of the lines; undefined where no line has a number. Settings are kept to. */
export function shapeOf(
  lines: readonly string[],
  settings: Pick<CaptureSettings, "delimiter" | "decimal" | "headerLines">,
): Shape | undefined {
  let best: { shape: Shape; score: number } | undefined;
  for (const delimiter of settings.delimiter === undefined ? delimiters : [settings.delimiter]) {
    for (const decimal of settings.decimal === undefined ? ([".", ","] as const) : [settings.decimal]) {
      const candidate = shapeWith(lines, { delimiter, decimal, headerLines: settings.headerLines });
      if (candidate !== undefined && candidate.score > (best?.score ?? 0)) best = candidate;
    }
  }
  return best?.shape;
}

interface Line {
  readonly cells: readonly Cell[];
  readonly tokens: readonly Token[];
  readonly blank: boolean;
}

function shapeWith(
  lines: readonly string[],
  { delimiter, decimal, headerLines }: { delimiter: Delimiter; decimal: Decimal; headerLines: number | undefined },
): { shape: Shape; score: number } | undefined {
  const skipped = headerLines ?? 0;
  const read = lines.map((text): Line => {
    const cells = withoutEmptyEnd(cellsOf(text, delimiter));
    const tokens = cells.map((cell): Token => {
      // A decimal comma in a file with commas between its cells must stand in quotes.
      const plain = delimiter === "," && decimal === "," && !cell.quoted ? "." : decimal;
      const clock = clockTime(cell.text);
      return clock === undefined ? tokenOf(cell.text, plain) : { kind: "number", value: clock.seconds, clock: true };
    });
    return { cells, tokens, blank: cells.every(({ text: cell }) => cell === "") };
  });
  const run = bestRun(read, skipped);
  if (run === undefined) return undefined;
  const { from, score } = run;
  // A cell beside the rows that now and then holds a number is no column of numbers.
  const filled = read.slice(from).filter((line) => isRow(line, run.mask));
  const holds = (column: number) => filled.filter(({ tokens }) => isMeasured(tokens[column])).length;
  const mask = run.mask.filter((column) => holds(column) >= filled.length / 2);
  if (mask.length === 0) return undefined;
  const first = headerLines === undefined ? firstRow(read, { from, mask }) : from;
  const rest = read.slice(first).filter(({ blank }) => !blank);
  const rows = rest.filter((line) => isRow(line, mask));
  const decimalSeen = rows.some((row) => mask.some((column) => row.cells[column]?.text.includes(decimal)));
  const width = widthOf(rows, mask);
  // `1,234` alone may as well be three decimals.
  const doubtful = !decimalSeen && rows.some(({ tokens }) => tokens.some((token) => "grouped" in token));
  const fractions = delimiter === "," && width === 2 && secondsAreFractions(rows);
  return {
    // Of two readings that fit equally, the point and the comma between cells are the commoner; a sign that was seen outweighs that.
    score:
      score *
      (fractions ? 0.01 : 1) *
      (doubtful ? 0.5 : 1) *
      (decimal === "." ? 1 : decimalSeen ? 0.99 : 0.9) *
      (delimiter === " " ? 0.98 : 1),
    shape: {
      delimiter,
      decimal,
      headerLines: headerLines ?? first,
      width,
      numeric: mask,
      rows: rows.map(({ tokens }) => tokens),
      decimalSeen,
      fits: rows.length,
      of: rest.length,
    },
  };
}

/** Rows with a text in a cell may stand before the first whole one: their other numbers lead up to it in the same steps. */
function firstRow(lines: readonly Line[], { from, mask }: { from: number; mask: readonly number[] }): number {
  const numberAt = (line: number, column: number) => {
    const token = lines[line]?.tokens[column];
    return token?.kind === "number" ? token.value : Number.NaN;
  };
  let first = from;
  const leadsUp = (column: number) => {
    const [before, at, next] = [first - 1, first, first + 1].map((line) => numberAt(line, column));
    return before !== undefined && at !== undefined && next !== undefined && next !== at
      ? Math.abs(2 * at - next - before) < 0.1 * Math.abs(next - at)
      : false;
  };
  while (first > 0 && mask.some(leadsUp)) first--;
  return first;
}

/**
 * `0,052` and `-1,2345e-3`: whole digits after a comma are decimals, not a second column, where they begin with a zero,
 * or where a power of ten stands behind several of them.
 */
function secondsAreFractions(rows: readonly Line[]): boolean {
  const second = rows.map(({ cells }) => cells[1]?.text ?? "");
  return second.some((text) => /^(?:0\d+$|\d{2,}[eEdD])/.test(text));
}

/** The greatest width that at least a tenth of the rows have: a row longer than that has something too many. */
function widthOf(rows: readonly Line[], mask: readonly number[]): number {
  const widths = rows.map(({ cells }) => cells.length).sort((a, b) => b - a);
  return Math.max(widths[Math.floor(widths.length / 10)] ?? 0, (mask.at(-1) ?? 0) + 1);
}

function withoutEmptyEnd(cells: readonly Cell[]): readonly Cell[] {
  let end = cells.length;
  while (end > 0 && cells[end - 1]?.text === "") end--;
  return cells.slice(0, end);
}

const isMeasured = (token: Token | undefined) => token?.kind === "number" || token?.kind === "over";
const isNumber = (token: Token | undefined) => token?.kind === "number";
const mayBeEmpty = (token: Token | undefined) => token === undefined || token.kind !== "text";

function isRow({ tokens }: Line, mask: readonly number[]): boolean {
  return mask.some((column) => isNumber(tokens[column])) && mask.every((column) => mayBeEmpty(tokens[column]));
}

/** The columns that hold numbers, and the first line from which on they do, for the longest and widest run of such lines. */
function bestRun(
  lines: readonly Line[],
  skipped: number,
): { mask: readonly number[]; from: number; score: number } | undefined {
  const masks = new Map<string, readonly number[]>();
  for (const { tokens } of lines.slice(skipped)) {
    const mask = tokens.flatMap((token, column) => (token.kind === "number" ? [column] : []));
    if (mask.length > 0 && masks.size < 60) masks.set(mask.join(), mask);
  }
  let best: { mask: readonly number[]; from: number; score: number } | undefined;
  for (const mask of masks.values()) {
    let from = -1;
    let score = 0;
    const close = () => {
      if (from >= 0 && score > (best?.score ?? 0)) best = { mask, from, score };
    };
    for (let at = skipped; at < lines.length; at++) {
      const line = lines[at];
      if (line === undefined || line.blank) continue;
      if (isRow(line, mask)) {
        if (from < 0) from = at;
        const clean = line.tokens.every((token) => token.kind !== "text");
        // Wider rows weigh more, so that `key,number` lines of a header do not outweigh a few rows below them.
        const width = mask.filter((column) => isNumber(line.tokens[column])).length;
        score += width * width * (clean ? 1 : 0.2);
      } else if (from >= 0 && !somethingFollows(lines, at, mask)) {
        // Text after the last row: what it is, the row parser says.
        break;
      } else if (from >= 0 && at - from < 3) {
        close();
        from = -1;
        score = 0;
      }
    }
    close();
  }
  return best;
}

function somethingFollows(lines: readonly Line[], after: number, mask: readonly number[]): boolean {
  return lines.slice(after + 1).some((line) => isRow(line, mask));
}
