/** A record out of the bytes of a file, whole or by the piece. Never throws over what the bytes are. */

import type { Finding } from "../../catalogue/finding.ts";
import { CsvReader, headSize } from "./csv.ts";
import type { CaptureReading, CaptureSettings, Format, Watch } from "./dialect.ts";
import { asciiKeeper, encodingOf, textOf } from "./encoding.ts";
import { readJson } from "./json.ts";
import { trouble } from "./problems.ts";
import { type CaptureSource, piecesOf } from "./source.ts";
import { isWav, readWav } from "./wav.ts";

/** Pieces in which bytes are parsed; what comes in longer ones is cut. */
const pieceSize = 1 << 20;
/** Bytes after which a reading that may be stopped lets the host's other events in: some 50 ms of work. */
const breathEvery = 1 << 24;
/** WAV and JSON are held whole: longer ones are refused. A text of more characters than this no host holds. */
const longestHeld = { wav: 1 << 29, json: 1 << 28 };

/**
 * Reads a record from an oscilloscope or a sound card: CSV in its dialects, WAV, or this project's JSON.
 *
 * @param bytes     the whole file
 * @param settings  what is known better than by guessing; all of it may be left out
 * @returns  the record where there is one, the dialect with the reason for each of its parts, and placed findings
 */
export function readCapture(bytes: Uint8Array, settings: CaptureSettings = {}): CaptureReading {
  const reader = new CaptureReader(settings, { bytesTotal: bytes.length });
  reader.push(bytes);
  return reader.finish();
}

/**
 * The same from pieces of any size, as they come from a disk, a browser's file or a network; of what was read only the samples are kept.
 * Where the source fails, so does the promise; nothing else rejects it.
 *
 * @param source  `createReadStream(path)`, `file.stream()`, or any pieces of bytes; it is closed where reading stops early
 * @param settings  those of `readCapture`, and how to watch and to stop it
 */
export async function readCaptureInPieces(
  source: CaptureSource,
  { bytesTotal, onProgress, signal, breathe, ...settings }: CaptureSettings & Watch = {},
): Promise<CaptureReading> {
  const reader = new CaptureReader(settings, { bytesTotal, onProgress, signal });
  let sinceBreath = 0;
  for await (const piece of piecesOf(source, signal)) {
    if (!reader.push(piece)) break;
    sinceBreath += piece.length;
    if (breathe === undefined || sinceBreath < breathEvery) continue;
    // A stream whose pieces are at hand never lets a worker hear that it should stop.
    await breathe();
    sinceBreath = 0;
  }
  return reader.finish();
}

class CaptureReader {
  private waiting: Uint8Array[] = [];
  private waitingLength = 0;
  private bytes = 0;
  private format: Format | undefined;
  private csv: CsvReader | undefined;
  private tooLong: Exclude<Format, "csv"> | undefined;
  private readonly settings: CaptureSettings;
  private readonly watch: WatchParts;

  constructor(settings: CaptureSettings, watch: WatchParts) {
    this.settings = settings;
    this.watch = watch;
  }

  /** False where nothing more is wanted. */
  push(bytes: Uint8Array): boolean {
    for (let at = 0; at < bytes.length; at += pieceSize) {
      const piece = bytes.subarray(at, at + pieceSize);
      this.bytes += piece.length;
      const wanted = this.take(piece);
      const { bytesTotal, onProgress, signal } = this.watch;
      onProgress?.({ bytesRead: this.bytes, bytesTotal, rows: this.csv?.rows ?? 0 });
      if (!wanted || signal?.aborted === true) return false;
    }
    return true;
  }

  private take(piece: Uint8Array): boolean {
    if (this.csv !== undefined) return this.csv.push(piece);
    // The caller may use its buffer again.
    this.waiting.push(piece.slice());
    this.waitingLength += piece.length;
    if (this.waitingLength < headSize) return true;
    this.format ??= this.settings.format ?? formatOf(this.held());
    if (this.format === "csv") return this.beginCsv();
    if (this.waitingLength > longestHeld[this.format]) {
      this.tooLong = this.format;
      return false;
    }
    return true;
  }

  private beginCsv(): boolean {
    this.csv = new CsvReader(this.settings, this.watch.bytesTotal);
    const held = this.held();
    this.waiting = [];
    return this.csv.push(held);
  }

  private held(): Uint8Array {
    const [only] = this.waiting;
    if (only !== undefined && this.waiting.length === 1) return only;
    const whole = new Uint8Array(this.waitingLength);
    let at = 0;
    for (const piece of this.waiting) {
      whole.set(piece, at);
      at += piece.length;
    }
    return whole;
  }

  finish(): CaptureReading {
    if (this.watch.signal?.aborted === true) return { findings: [this.cancelled()] };
    if (this.tooLong !== undefined) return { findings: [tooLong(this.tooLong)] };
    if (this.csv !== undefined) return this.csv.finish();
    const whole = this.held();
    this.format ??= this.settings.format ?? formatOf(whole);
    if (this.format === "wav") return isWav(whole) ? readWav(whole, this.settings) : notWav();
    if (this.format === "json") return readJson(jsonText(whole), this.settings);
    this.beginCsv();
    return (this.csv as CsvReader | undefined)?.finish() ?? { findings: [] };
  }

  private cancelled(): Finding {
    const { bytesTotal } = this.watch;
    const of = bytesTotal === undefined ? "" : ` of ${megabytes(bytesTotal)}`;
    return trouble({
      rule: "capture-cancelled",
      severity: "look",
      what: `reading was stopped after ${megabytes(this.bytes)}${of}; nothing of it is kept`,
      expected: "the whole file",
      remedies: ["read it again from its beginning"],
    });
  }
}

interface WatchParts {
  readonly bytesTotal: number | undefined;
  readonly onProgress?: Watch["onProgress"] | undefined;
  readonly signal?: AbortSignal | undefined;
}

const tooLong = (format: Exclude<Format, "csv">) =>
  trouble({
    rule: "capture-too-long",
    what: `the file is longer than ${longestHeld[format] / (1 << 20)} MiB`,
    expected: "a shorter record; a longer one as CSV, which is read by the piece",
    remedies: ["export a part of the record", "export it as CSV"],
  });

const megabytes = (bytes: number) => (bytes < 1e6 ? `${Math.round(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

function notWav(): CaptureReading {
  return {
    findings: [
      trouble({
        rule: "capture-wav",
        what: "the file does not begin with RIFF and WAVE",
        expected: "a WAV file, or no format set",
      }),
    ],
  };
}

/** What the first bytes say. */
function formatOf(head: Uint8Array): Format {
  if (isWav(head)) return "wav";
  const text = jsonText(head.subarray(0, 1024));
  return /^\s*(?:\{|\[\s*[[{])/.test(text) ? "json" : "csv";
}

function jsonText(bytes: Uint8Array): string {
  const { encoding, mark } = encodingOf(bytes);
  return textOf(asciiKeeper(encoding)(bytes.subarray(mark), true), encoding);
}
