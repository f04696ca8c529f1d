/** Rows of numbers out of bytes: one pass without strings for what is a plain number, the exact slow way for every other line. */
import { Clock } from "./clock.ts";
import type { ColumnUse, Dialect } from "./dialect.ts";
import { Tally } from "./problems.ts";
import { cellsOf, type Token, tokenOf } from "./token.ts";

export type RowTrouble =
  | "not-a-number"
  | "text-line"
  | "short-row"
  | "long-row"
  | "over-range"
  | "missing"
  | "row-without-time"
  | "last-line-cut"
  | "line-too-long";

/** Lines without a row before a row. */
export interface Break {
  readonly row: number;
  readonly lines: readonly string[];
}

/** True for the columns whose numbers are kept. */
export const isKept = (use: ColumnUse): boolean => use === "time" || use === "channel" || use === "continuation";

/** Takes rows by the block: `values` [rows × kept columns], row-major, in the units of the file. */
export type RowSink = (values: Float64Array, rows: number) => void;

const returnCode = 13;
const space = 32;
const tab = 9;
const quote = 34;
/** Rows that are handed on together. */
const rowsPerBlock = 4096;
/** A line of this many bytes is no row of a record. */
const longestLine = 1 << 20;

/** Lines of text between rows that are kept: they may be the header of another channel. */
const mostHeaderLines = 40;
const mostBreaks = 64;

/** 10^0 … 10^22 are exact in double precision; so are products and quotients of whole numbers below 2^53 with them, rounded once. */
const powers = Float64Array.from({ length: 23 }, (_, n) => Number(`1e${n}`));

/** Of a line whose last number is in scientific notation. */
export const powerAtEnd = /[eEdD][+-]?\d+[\s",;|]*$/;

export class RowParser {
  readonly tally = new Tally<RowTrouble>();
  /** Rows so far, counted as samples. */
  rows = 0;
  /** Set where a line was so long that reading was given up. */
  gaveUp = false;
  /** Where rows go on after text, up to the first few dozen. */
  readonly breaks: Break[] = [];
  /** Text lines after the last row so far; they are trouble only where another row follows. */
  private pendingText: { line: number; token: string }[] = [];
  private pendingCount = 0;
  /** Row numbers before which lines without a row stand, and how many; for the line of a row. */
  private readonly skipped: { row: number; lines: number }[] = [];
  private line: number;
  private carried = new Uint8Array(0);
  private readonly decoder = new TextDecoder();
  private readonly delimiter: number;
  private readonly decimal: number;
  private readonly newline: number;
  private readonly width: number;
  private readonly kept: Uint8Array;
  private readonly keptCount: number;
  /** Column of clock times, or −1. */
  private readonly clockColumn: number;
  private readonly clock = new Clock();
  /** Column of the time, or −1. */
  private readonly timeColumn: number;
  private readonly stage: Float64Array;
  private staged = 0;
  /** Sign of the last number of each kept column, for `OVER` without a sign. */
  private readonly signs: Float64Array;

  private readonly dialect: Pick<Dialect, "delimiter" | "decimal" | "decimalAssumed" | "columns" | "headerLines">;
  private readonly sink: RowSink;
  private readonly endsInPower: boolean;

  constructor({
    dialect,
    newline,
    sink,
    endsInPower = false,
  }: {
    dialect: Pick<Dialect, "delimiter" | "decimal" | "decimalAssumed" | "columns" | "headerLines">;
    /** `\r` only where the text has no other. */
    newline: "\n" | "\r";
    sink: RowSink;
    /** Every row ends in a power of ten, so that one that does not is cut off. */
    endsInPower?: boolean;
  }) {
    this.endsInPower = endsInPower;
    this.dialect = dialect;
    this.sink = sink;
    this.delimiter = dialect.delimiter.charCodeAt(0);
    this.decimal = dialect.decimal.charCodeAt(0);
    this.newline = newline.charCodeAt(0);
    this.width = dialect.columns.length;
    this.kept = Uint8Array.from(dialect.columns, ({ use }) => (isKept(use) ? 1 : 0));
    this.timeColumn = dialect.columns.findIndex(({ use }) => use === "time");
    this.clockColumn = dialect.columns.findIndex(({ clock }) => clock === true);
    this.keptCount = this.kept.reduce((sum, one) => sum + one, 0);
    this.stage = new Float64Array(rowsPerBlock * Math.max(1, this.keptCount));
    this.signs = new Float64Array(this.keptCount).fill(1);
    this.line = dialect.headerLines;
  }

  /** Line of the file, from 1, of a row counted from 0. */
  lineOf(row: number): number {
    let lines = this.dialect.headerLines + 1 + row;
    for (const gap of this.skipped) if (gap.row <= row) lines += gap.lines;
    return lines;
  }

  /** The text lines after the last row, if any. */
  trailing(): { line: number; token: string; count: number } | undefined {
    const first = this.pendingText[0];
    return first === undefined ? undefined : { line: first.line, token: first.token.trim(), count: this.pendingCount };
  }

  push(piece: Uint8Array): void {
    if (this.gaveUp) return;
    const last = piece.lastIndexOf(this.newline);
    if (last === -1) {
      this.carry(piece);
      return;
    }
    let from = 0;
    if (this.carried.length > 0) {
      const first = piece.indexOf(this.newline) + 1;
      const whole = joined(this.carried, piece.subarray(0, first));
      this.carried = new Uint8Array(0);
      this.parse(whole, 0, whole.length);
      from = first;
    }
    this.parse(piece, from, last + 1);
    this.carry(piece.subarray(last + 1));
  }

  /** The last line may lack its end; the rows still held are handed on. */
  finish(): void {
    if (this.carried.length > 0 && !this.gaveUp) {
      const whole = joined(this.carried, Uint8Array.of(this.newline));
      this.carried = new Uint8Array(0);
      if (!this.leftOut(this.decoder.decode(whole))) this.parse(whole, 0, whole.length);
    }
    this.flush();
  }

  /** A line that the end of the file cuts through may hold half a number, which looks like another one. */
  private leftOut(text: string): boolean {
    const line = text.trimEnd();
    const cells = cellsOf(line, this.dialect.delimiter);
    const first = cells.find((cell) => cell.text !== "");
    if (this.rows === 0 || first === undefined || this.tokenAt(first, cells.indexOf(first)).kind === "text")
      return false;
    const whole = cells.length > this.kept.lastIndexOf(1) && (!this.endsInPower || powerAtEnd.test(line));
    if (!whole) this.tally.add("last-line-cut", { line: this.line + 1, column: 1, token: line });
    return !whole;
  }

  private carry(rest: Uint8Array): void {
    if (rest.length === 0) return;
    this.carried = joined(this.carried, rest);
    if (this.carried.length > longestLine) {
      this.gaveUp = true;
      this.tally.add("line-too-long", { line: this.line + 1, column: 1, token: "" });
      this.carried = new Uint8Array(0);
    }
  }

  /** Whole lines from `from` up to `to`, which stands behind a line end: that end stops every inner loop. */
  private parse(bytes: Uint8Array, from: number, to: number): void {
    const { delimiter, decimal, newline, width, kept, stage } = this;
    const bare = delimiter === decimal ? -1 : decimal;
    const cutsAtSpaces = delimiter === space;
    const room = stage.length - this.keptCount;
    const plainPowers = powers;
    let k = this.staged;
    let i = from;
    while (i < to) {
      const rowStart = i;
      const rowStage = k;
      let fits = true;
      let c = 0;
      for (let column = 0; column < width; column++) {
        c = bytes[i]!;
        if (cutsAtSpaces) while (c === space || c === tab) c = bytes[++i]!;
        else while (c === space || (c === tab && delimiter !== tab)) c = bytes[++i]!;
        if (kept[column] === 0) {
          // Quotes may hide a delimiter; such rows go the slow way.
          while (c !== delimiter && c !== newline && c !== quote) c = bytes[++i]!;
          if (c === quote) {
            fits = false;
            break;
          }
        } else {
          let point = bare;
          const quoted = c === quote;
          if (quoted) {
            point = decimal;
            c = bytes[++i]!;
          }
          let negative = false;
          if (c === 45) {
            negative = true;
            c = bytes[++i]!;
          } else if (c === 43) c = bytes[++i]!;
          let mantissa = 0;
          let digits = 0;
          let scale = 0;
          let digit = c - 48;
          while (digit >= 0 && digit <= 9) {
            mantissa = mantissa * 10 + digit;
            digits++;
            c = bytes[++i]!;
            digit = c - 48;
          }
          if (c === point) {
            const start = i;
            c = bytes[++i]!;
            digit = c - 48;
            while (digit >= 0 && digit <= 9) {
              mantissa = mantissa * 10 + digit;
              c = bytes[++i]!;
              digit = c - 48;
            }
            scale = start + 1 - i;
            digits -= scale;
          }
          if (digits === 0) {
            fits = false;
            break;
          }
          if (c === 69 || c === 101) {
            c = bytes[++i]!;
            let down = false;
            if (c === 45) {
              down = true;
              c = bytes[++i]!;
            } else if (c === 43) c = bytes[++i]!;
            digit = c - 48;
            if (digit < 0 || digit > 9) {
              fits = false;
              break;
            }
            let exponent = 0;
            while (digit >= 0 && digit <= 9 && exponent < 1000) {
              exponent = exponent * 10 + digit;
              c = bytes[++i]!;
              digit = c - 48;
            }
            scale += down ? -exponent : exponent;
          }
          // Above 2^53 the digits no longer fit exactly; above 10^22 the power does not.
          if (mantissa > 9007199254740992 || scale > 22 || scale < -22) {
            fits = false;
            break;
          }
          let value = mantissa;
          if (scale < 0) value /= plainPowers[-scale]!;
          else if (scale > 0) value *= plainPowers[scale]!;
          stage[k++] = negative ? -value : value;
          if (quoted) {
            if (c !== quote) {
              fits = false;
              break;
            }
            c = bytes[++i]!;
          }
        }
        if (cutsAtSpaces) {
          const before = i;
          while (c === space || c === tab) c = bytes[++i]!;
          if (column < width - 1 && (i === before || c === newline || c === returnCode)) {
            fits = false;
            break;
          }
        } else {
          while (c === space) c = bytes[++i]!;
          if (column < width - 1) {
            if (c !== delimiter) {
              fits = false;
              break;
            }
            i++;
          }
        }
      }
      if (fits) {
        // Empty cells at the end of a row are no cells.
        if (!cutsAtSpaces) while (c === delimiter || c === space) c = bytes[++i]!;
        if (c === returnCode && newline !== returnCode) c = bytes[++i]!;
        fits = c === newline;
      }
      if (fits) {
        i++;
        this.line++;
        if (this.pendingCount > 0) this.settlePending();
        this.rows++;
      } else {
        k = rowStage;
        i = rowStart;
        while (bytes[i] !== newline) i++;
        this.line++;
        this.staged = k;
        this.slowRow(this.decoder.decode(bytes.subarray(rowStart, i)));
        k = this.staged;
        i++;
      }
      if (k > room) {
        this.staged = k;
        this.flush();
        k = 0;
      }
    }
    this.staged = k;
  }

  /** One line that is not plain numbers. */
  private slowRow(text: string): void {
    const line = text.replace(/[\r\u0000\u001a]+$/, "");
    const cells = cellsOf(line, this.dialect.delimiter);
    if (cells.every((cell) => cell.text === "")) {
      this.noteSkipped();
      return;
    }
    const tokens = cells.map((cell, column) => this.tokenAt(cell, column));
    const keptTokens = tokens.filter((_, column) => this.kept[column] === 1);
    const timeKind = tokens[this.timeColumn]?.kind;
    if (
      timeKind === "text" ||
      (!keptTokens.some(({ kind }) => kind === "number" || kind === "over") &&
        keptTokens.some(({ kind }) => kind === "text"))
    ) {
      this.noteSkipped();
      this.pendingCount++;
      if (this.pendingText.length < mostHeaderLines) this.pendingText.push({ line: this.line, token: line.trimEnd() });
      return;
    }
    if (this.timeColumn >= 0 && timeKind !== "number") {
      this.noteSkipped();
      this.tally.add("row-without-time", { line: this.line, column: cells[this.timeColumn]?.column ?? 1, token: line });
      return;
    }
    if (this.pendingCount > 0) this.settlePending();
    let kept = 0;
    for (let column = 0; column < this.width; column++) {
      if (this.kept[column] === 0) continue;
      const token = tokens[column];
      const cell = cells[column];
      const at = { line: this.line, column: cell?.column ?? line.length + 1, token: cell?.text ?? "" };
      let value = Number.NaN;
      if (token === undefined) this.tally.add("short-row", { ...at, token: line });
      else if (token.kind === "number") {
        value = token.value;
        if (value !== 0) this.signs[kept] = Math.sign(value);
      } else if (token.kind === "over") {
        value = (token.sign === 0 ? this.lastSign(kept) : token.sign) * Number.POSITIVE_INFINITY;
        this.tally.add("over-range", at);
      } else this.tally.add(token.kind === "missing" ? "missing" : "not-a-number", at);
      this.stage[this.staged + kept] = value;
      kept++;
    }
    const extra = cells.slice(this.width).find((cell) => cell.text !== "");
    if (extra !== undefined) this.tally.add("long-row", { line: this.line, column: extra.column, token: extra.text });
    this.staged += this.keptCount;
    this.rows++;
  }

  private tokenAt({ text, quoted }: { text: string; quoted: boolean }, column: number): Token {
    if (column === this.clockColumn) {
      const value = this.clock.since(text);
      if (!Number.isNaN(value)) return { kind: "number", value };
      return text === "" ? { kind: "missing" } : { kind: "text" };
    }
    const { delimiter, decimal, decimalAssumed } = this.dialect;
    const token = tokenOf(text, delimiter === "," && decimal === "," && !quoted ? "." : decimal);
    // Where no decimal sign was seen before, `1,234` may be thousands or decimals.
    return decimalAssumed === true && "grouped" in token ? { kind: "text" } : token;
  }

  /** Sign of the number before in the same kept column. */
  private lastSign(kept: number): number {
    const before = this.stage[this.staged - this.keptCount + kept];
    if (this.staged >= this.keptCount && before !== undefined && !Number.isNaN(before) && before !== 0)
      return Math.sign(before);
    return this.signs[kept] ?? 1;
  }

  private settlePending(): void {
    const first = this.pendingText[0];
    if (this.breaks.length < mostBreaks)
      this.breaks.push({ row: this.rows, lines: this.pendingText.map(({ token }) => token) });
    for (let n = 0; n < this.pendingCount && first !== undefined; n++)
      this.tally.add("text-line", { line: first.line, column: 1, token: first.token.trim() });
    this.pendingText = [];
    this.pendingCount = 0;
  }

  private noteSkipped(): void {
    const last = this.skipped.at(-1);
    if (last?.row === this.rows) last.lines++;
    else if (this.skipped.length < 1000) this.skipped.push({ row: this.rows, lines: 1 });
  }

  private flush(): void {
    const rows = this.keptCount === 0 ? 0 : this.staged / this.keptCount;
    if (rows > 0) {
      for (let kept = 0; kept < this.keptCount; kept++) {
        const last = this.stage[this.staged - this.keptCount + kept] ?? Number.NaN;
        if (last > 0 || last < 0) this.signs[kept] = Math.sign(last);
      }
      this.sink(this.stage, rows);
    }
    this.staged = 0;
  }
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(a.length + b.length);
  whole.set(a, 0);
  whole.set(b, a.length);
  return whole;
}
