/** The CSV reader as a machine: bytes in by the piece, the record out at the end. */
import type { Finding } from "../../catalogue/finding.ts";
import type { BenchRecord, Channel } from "../../description/record.ts";
import { formatQuantity } from "../../units/format.ts";
import type { CaptureReading, CaptureSettings, Dialect } from "./dialect.ts";
import { asciiKeeper, encodingOf, isBinary, textOf } from "./encoding.ts";
import { GrowingSamples, GrowingTimes } from "./growing.ts";
import { guessDialect } from "./guess.ts";
import { counted, trouble } from "./problems.ts";
import { RowParser, type RowTrouble } from "./rows.ts";
import { checkAxis, onAxis } from "./time-axis.ts";

/** Bytes from which the dialect is guessed. */
export const headSize = 1 << 18;
/** Lines from which the dialect is guessed. */
const headLines = 400;
interface Body {
  readonly dialect: Dialect;
  readonly rows: RowParser;
  readonly times: GrowingTimes | undefined;
  readonly channels: readonly GrowingSamples[];
}

export class CsvReader {
  private head = new Uint8Array(0);
  private body: Body | undefined;
  private readonly findings: Finding[] = [];
  private dialect: Dialect | undefined;
  private refused = false;
  private keep: ((piece: Uint8Array, last: boolean) => Uint8Array) | undefined;
  private encoding: ReturnType<typeof encodingOf> | undefined;
  private readonly settings: CaptureSettings;

  constructor(settings: CaptureSettings) {
    this.settings = settings;
  }

  get rows(): number {
    return this.body?.rows.rows ?? 0;
  }

  /** False once nothing more is wanted: the file cannot be read. */
  push(piece: Uint8Array): boolean {
    this.take(piece, false);
    return !this.refused;
  }

  private take(piece: Uint8Array, last: boolean): void {
    if (this.refused) return;
    if (this.keep === undefined) {
      // The first piece decides the encoding; the caller hands over at least `headSize` bytes or the whole file.
      this.encoding = encodingOf(piece.subarray(0, headSize));
      if (this.settings.encoding !== undefined) this.encoding = { ...this.encoding, encoding: this.settings.encoding };
      this.keep = asciiKeeper(this.encoding.encoding);
      piece = piece.subarray(this.encoding.mark);
    }
    const plain = this.keep(piece, last);
    if (this.body !== undefined) {
      this.body.rows.push(plain);
      if (this.body.rows.gaveUp) this.refused = true;
      return;
    }
    const whole = new Uint8Array(this.head.length + plain.length);
    whole.set(this.head);
    whole.set(plain, this.head.length);
    this.head = whole;
    if (last || this.head.length >= headSize) this.begin(last);
  }

  /** Guesses the dialect from the head and hands its rows to the row parser. */
  private begin(last: boolean): void {
    const { head } = this;
    this.head = new Uint8Array(0);
    const encoding = this.encoding ?? encodingOf(head);
    if (isBinary(withoutPadding(head.subarray(0, 4096)))) {
      this.refuse(
        trouble({
          rule: "capture-not-text",
          what: "the file is neither text nor a WAV record: it has control bytes in its first lines",
          expected: "CSV text, WAV, or this project's JSON record",
          remedies: ["export the record as CSV; the instrument's own binary form is not read"],
        }),
      );
      return;
    }
    const text = textOf(head, encoding.encoding);
    const newline = text.includes("\n") || !text.includes("\r") ? "\n" : "\r";
    const lines = text.split(newline);
    // A line that the end of the head cuts is no line.
    if (!last && lines.length > 1) lines.pop();
    const guess = guessDialect(
      lines.slice(0, headLines).map((line) => line.replace(/\r$/, "")),
      { encoding: encoding.encoding, encodingBecause: encoding.because, settings: this.settings },
    );
    this.findings.push(...guess.findings);
    this.dialect = guess.dialect;
    if (guess.dialect === undefined || guess.findings.some(({ severity }) => severity === "stop")) {
      this.refused = true;
      return;
    }
    const body = bodyOf(guess.dialect, newline);
    this.body = body;
    body.rows.push(head.subarray(offsetOfLine(head, guess.dialect.headerLines, newline)));
    if (body.rows.gaveUp) this.refused = true;
  }

  private refuse(finding: Finding): void {
    this.findings.push(finding);
    this.refused = true;
  }

  finish(): CaptureReading {
    this.take(new Uint8Array(0), true);
    const { body, dialect } = this;
    if (body === undefined || dialect === undefined)
      return { findings: this.findings, ...(dialect === undefined ? {} : { dialect }) };
    body.rows.finish();
    this.findings.push(...rowFindings(body));
    if (body.rows.gaveUp) return { dialect, findings: this.findings };
    const record = recordOf(body, this.settings.name ?? "", this.findings);
    return { dialect, findings: this.findings, ...(record === undefined ? {} : { record }) };
  }
}

/** Zeros at the end of a file are padding, not a sign of another format. */
function withoutPadding(bytes: Uint8Array): Uint8Array {
  let end = bytes.length;
  while (end > 0 && bytes[end - 1] === 0) end--;
  return bytes.subarray(0, end);
}

function offsetOfLine(bytes: Uint8Array, line: number, newline: "\n" | "\r"): number {
  const code = newline.charCodeAt(0);
  let at = 0;
  for (let n = 0; n < line; n++) {
    const end = bytes.indexOf(code, at);
    if (end === -1) return bytes.length;
    at = end + 1;
  }
  return at;
}

function bodyOf(dialect: Dialect, newline: "\n" | "\r"): Body {
  const kept = dialect.columns.filter(({ use }) => use === "time" || use === "channel");
  const times = dialect.interval === undefined ? new GrowingTimes() : undefined;
  const channels: GrowingSamples[] = [];
  const growing = kept.map(({ use, factor }) => {
    if (use === "time" && times !== undefined) return { factor, column: times };
    const column = new GrowingSamples();
    channels.push(column);
    return { factor, column };
  });
  const stride = kept.length;
  const rows = new RowParser({
    dialect,
    newline,
    sink: (values, count) => {
      for (const [from, { column, factor }] of growing.entries())
        column.append({ values, from, stride, count, factor });
    },
  });
  return { dialect, rows, times, channels };
}

/** Severity and words of each kind of trouble in the rows. */
const words: Readonly<
  Record<RowTrouble, (count: number, token: string) => { what: string; expected: string; stop?: true }>
> = {
  "not-a-number": (count, token) => ({
    what: `${counted(count, "cell is not a number", "cells are not numbers")}, the first is \`${token}\`; ${count === 1 ? "it is" : "they are"} kept as gaps`,
    expected: "a number, or a word for a value over the range (`inf`, `OVER`, `****`)",
  }),
  "text-line": (count, token) => ({
    what: `${counted(count, "line")} of text between the rows, the first \`${token}\`; left out`,
    expected: "rows of numbers without lines of text between them: a second record belongs into a file of its own",
  }),
  "short-row": (count) => ({
    what: `${counted(count, "row lacks a cell", "rows lack cells")}, the first here; ${count === 1 ? "it is" : "they are"} kept as gaps`,
    expected: "the same number of cells in every row",
  }),
  "long-row": (count) => ({
    what: `${counted(count, "row has", "rows have")} more cells than the others, the first here; the rest is left out`,
    expected: "the same number of cells in every row",
  }),
  "over-range": (count, token) => ({
    what: `${counted(count, "value is", "values are")} over the instrument's range, the first \`${token}\``,
    expected: "a vertical scale on which the whole signal fits",
  }),
  missing: (count, token) => ({
    what: `${counted(count, "value is", "values are")} missing${token === "" ? "" : `, the first \`${token}\``}`,
    expected: "a number in every cell",
  }),
  "line-too-long": () => ({
    what: "this line has more than a million characters",
    expected: "one row on each line",
    stop: true,
  }),
};

function rowFindings({ rows, channels, dialect }: Body): readonly Finding[] {
  const findings: Finding[] = [];
  for (const kind of Object.keys(words) as RowTrouble[]) {
    const met = rows.tally.get(kind);
    if (met === undefined) continue;
    const { what, expected, stop } = words[kind](met.count, met.token);
    findings.push(
      trouble({
        rule: `capture-${kind}`,
        severity: stop ? "stop" : "look",
        line: met.line,
        column: met.column,
        length: Math.max(1, met.token.length),
        what,
        expected,
      }),
    );
  }
  const marked = channels.reduce((sum, channel) => sum + channel.marked, 0);
  if (marked > 0)
    findings.push(
      trouble({
        rule: "capture-over-range",
        severity: "look",
        what: `${counted(marked, "value is", "values are")} 9.9E37 or thereabouts: the instrument's mark for a value over its range`,
        expected: "a vertical scale on which the whole signal fits",
      }),
    );
  const trailing = rows.trailing();
  if (trailing !== undefined)
    findings.push(
      trouble({
        rule: "capture-text-after-rows",
        severity: "look",
        line: trailing.line,
        length: Math.max(1, trailing.token.length),
        what: `${counted(trailing.count, "line")} of text after the last row, the first \`${trailing.token.slice(0, 40)}\`; left out`,
        expected: "rows of numbers up to the end of the file",
      }),
    );
  if (dialect.rowsAnnounced !== undefined && dialect.rowsAnnounced > rows.rows)
    findings.push(
      trouble({
        rule: "capture-shorter-than-announced",
        severity: "look",
        what: `the header announces ${dialect.rowsAnnounced} rows, the file has ${rows.rows}`,
        expected: "the whole record: it may have been cut while it was copied",
      }),
    );
  return findings;
}

function recordOf(
  { dialect, rows, times, channels }: Body,
  name: string,
  findings: Finding[],
): BenchRecord | undefined {
  const described = dialect.columns.filter(({ use }) => use === "channel");
  const assembled = (place: (samples: Float32Array) => Float32Array): readonly Channel[] =>
    described.map(({ name: channelName, role, unit, transducer }, index) => ({
      name: channelName,
      role,
      unit,
      samples: place(channels[index]?.take() ?? new Float32Array(0)),
      ...(transducer === undefined ? {} : { transducer }),
    }));
  if (times === undefined) {
    const interval = dialect.interval ?? Number.NaN;
    const problem = axisProblem({ interval, rows: rows.rows });
    if (problem !== undefined) {
      findings.push(problem);
      return undefined;
    }
    return { name, start: dialect.start, interval, length: rows.rows, channels: assembled((samples) => samples) };
  }
  const check = checkAxis(times, (row) => rows.lineOf(row));
  findings.push(...check.findings);
  const { axis } = check;
  if (axis === undefined) return undefined;
  const said = dialect.intervalAnnounced;
  if (said !== undefined && Math.abs(said - axis.interval) > 1e-3 * axis.interval)
    findings.push(
      trouble({
        rule: "capture-interval-disagrees",
        severity: "look",
        what: `the header gives a sample interval of ${formatQuantity(said, "s")}, the time column one of ${formatQuantity(axis.interval, "s")}; the column is taken`,
        expected: "one sample interval",
      }),
    );
  return {
    name,
    start: axis.start,
    interval: axis.interval,
    length: axis.length,
    channels: assembled((samples) => onAxis(samples, times, axis)),
  };
}

function axisProblem({ interval, rows }: { interval: number; rows: number }): Finding | undefined {
  if (!(interval > 0 && interval < Number.POSITIVE_INFINITY))
    return trouble({
      rule: "capture-interval",
      what: `a sample interval of ${interval} s`,
      expected: "a sample interval above 0",
    });
  return rows < 2
    ? trouble({
        rule: "capture-too-few-rows",
        what: `the record has ${counted(rows, "row")}`,
        expected: "thousands of rows; at least two",
      })
    : undefined;
}
