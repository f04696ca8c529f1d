/** The CSV reader as a machine: bytes in by the piece, the record out at the end. */
import type { Finding } from "../../catalogue/finding.ts";
import { madeUpMark } from "../../description/record.ts";
import { recordOf } from "./assemble.ts";
import type { Body } from "./body.ts";
import type { CaptureReading, CaptureSettings, Dialect } from "./dialect.ts";
import { asciiKeeper, encodingOf, isBinary, textOf } from "./encoding.ts";
import { GrowingSamples, GrowingTimes } from "./growing.ts";
import { guessDialect } from "./guess.ts";
import { trouble } from "./problems.ts";
import { rowFindings } from "./row-findings.ts";
import { isKept, powerAtEnd, RowParser } from "./rows.ts";

/** Bytes from which the dialect is guessed. */
export const headSize = 1 << 18;
/** Rows for which room is made at once; further ones make their own. */
const mostExpected = 1 << 25;
/** Lines from which the dialect is guessed. */
const headLines = 400;

export class CsvReader {
  private head = new Uint8Array(0);
  private body: Body | undefined;
  private readonly findings: Finding[] = [];
  private dialect: Dialect | undefined;
  private refused = false;
  private madeUp = false;
  private keep: ((piece: Uint8Array, last: boolean) => Uint8Array) | undefined;
  private encoding: ReturnType<typeof encodingOf> | undefined;
  private readonly settings: CaptureSettings;
  private readonly bytesTotal: number | undefined;

  /** @param bytesTotal  of the file, where it is known */
  constructor(settings: CaptureSettings, bytesTotal?: number) {
    this.settings = settings;
    this.bytesTotal = bytesTotal;
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
      this.refuse(notText(head));
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
    this.madeUp = lines.slice(0, guess.dialect?.headerLines).some((line) => line.includes(madeUpMark));
    if (guess.dialect === undefined || guess.findings.some(({ severity }) => severity === "stop")) {
      this.refused = true;
      return;
    }
    const rowsSeen = lines.slice(guess.dialect.headerLines, headLines).filter((line) => line.trim() !== "");
    const endsInPower = rowsSeen.slice(0, 20).every((line) => powerAtEnd.test(line));
    const rowsExpected = last ? 0 : this.rowsExpected(lines.length - guess.dialect.headerLines, head.length);
    const body = bodyOf(guess.dialect, { newline, endsInPower, rowsExpected });
    this.body = body;
    body.rows.push(head.subarray(offsetOfLine(head, guess.dialect.headerLines, newline)));
    if (body.rows.gaveUp) this.refused = true;
  }

  /** By the rows of the head, and a little more; 0 where nothing is known. */
  private rowsExpected(rowsOfHead: number, bytesOfHead: number): number {
    const isWide = this.encoding?.encoding.startsWith("utf-16") === true;
    const bytes = (this.bytesTotal ?? 0) / (isWide ? 2 : 1);
    return Math.min(mostExpected, Math.ceil((1.04 * rowsOfHead * bytes) / bytesOfHead));
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
    if (body.rows.gaveUp) return { dialect, findings: [...this.findings, ...rowFindings(body)] };
    const { record, findings, textExplained } = recordOf(body, this.settings.name ?? "");
    return {
      dialect,
      findings: [...this.findings, ...rowFindings(body, { textExplained }), ...findings],
      ...(record === undefined ? {} : { record: this.madeUp ? { ...record, madeUp: true } : record }),
    };
  }
}

/** What people hand over by mistake, by the first bytes. From memory. */
const mistaken: readonly (readonly [string, string, string])[] = [
  ["\x1f\x8b", "is packed (gzip)", "unpack it"],
  ["PK\x03\x04", "is an archive, or the workbook of a spreadsheet", "unpack it, or save the sheet as CSV"],
  ["\x89PNG", "is a picture (PNG)", "save the samples beside the picture of the screen"],
  ["\xff\xd8\xff", "is a picture (JPEG)", "save the samples beside the picture of the screen"],
  ["fLaC", "is packed sound (FLAC)", "save it as WAV"],
  ["OggS", "is packed sound (Ogg)", "save it as WAV"],
  ["ID3", "is packed sound (MP3)", "record it as WAV: what was packed with loss is no measurement"],
];

function notText(head: Uint8Array): Finding {
  const begins = String.fromCharCode(...head.subarray(0, 8));
  const known = mistaken.find(([sign]) => begins.startsWith(sign));
  return trouble({
    rule: "capture-not-text",
    what: `the file ${known?.[1] ?? "is neither text nor a WAV record: it has control bytes in its first lines"}`,
    expected: "CSV text, WAV, or this project's JSON record",
    remedies: [known?.[2] ?? "export the record as CSV; the instrument's own binary form is not read"],
  });
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

function bodyOf(
  dialect: Dialect,
  { newline, endsInPower, rowsExpected }: { newline: "\n" | "\r"; endsInPower: boolean; rowsExpected: number },
): Body {
  const columns = dialect.columns.map((column, index) => {
    if (!isKept(column.use)) return undefined;
    const continued = dialect.columns[column.continues ?? index]?.use;
    return continued === "time" && dialect.interval === undefined
      ? new GrowingTimes()
      : new GrowingSamples({ whole: column.codes !== undefined, expected: rowsExpected });
  });
  const growing = dialect.columns.flatMap(({ factor, codes }, index) => {
    const column = columns[index];
    if (column === undefined) return [];
    return [
      {
        column,
        factor: factor * (codes?.increment ?? 1),
        offset: codes === undefined ? 0 : factor * (codes.origin - codes.reference * codes.increment),
      },
    ];
  });
  const stride = growing.length;
  const rows = new RowParser({
    dialect,
    newline,
    endsInPower,
    sink: (values, count) => {
      for (const [from, { column, factor, offset }] of growing.entries())
        column.append({ values, from, stride, count, factor, offset });
    },
  });
  return { dialect, rows, columns };
}
