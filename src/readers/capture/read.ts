/** A record out of the bytes of a file, whole or by the piece. Never throws over what the bytes are. */

import { CsvReader, headSize } from "./csv.ts";
import type { CaptureReading, CaptureSettings, Format } from "./dialect.ts";
import { asciiKeeper, encodingOf, textOf } from "./encoding.ts";
import { readJson } from "./json.ts";
import { trouble } from "./problems.ts";
import { isWav, readWav } from "./wav.ts";

/** Pieces in which a whole file is read, between which `goOn` is asked. */
const pieceSize = 1 << 18;
/** WAV and JSON are held whole: longer ones are refused. */
const longestHeld = 1 << 29;

/**
 * Reads a record from an oscilloscope or a sound card: CSV in its dialects, WAV, or this project's JSON.
 *
 * @param bytes     the whole file
 * @param settings  what is known better than by guessing; all of it may be left out
 * @returns  the record where there is one, the dialect with the reason for each of its parts, and placed findings
 */
export function readCapture(bytes: Uint8Array, settings: CaptureSettings = {}): CaptureReading {
  const reader = new CaptureReader(settings, bytes.length);
  for (let at = 0; at < bytes.length || at === 0; at += pieceSize) {
    if (!reader.push(bytes.subarray(at, at + pieceSize))) break;
  }
  return reader.finish();
}

/**
 * The same from pieces of any size, as they come from a disk or a network; what was read is not kept but for the samples.
 *
 * @param of  bytes of the whole, where that is known, for `goOn`
 */
export async function readCaptureInPieces(
  pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  { of, ...settings }: CaptureSettings & { readonly of?: number } = {},
): Promise<CaptureReading> {
  const reader = new CaptureReader(settings, of);
  for await (const piece of pieces) if (!reader.push(piece)) break;
  return reader.finish();
}

class CaptureReader {
  private waiting: Uint8Array[] = [];
  private waitingLength = 0;
  private bytes = 0;
  private format: Format | undefined;
  private csv: CsvReader | undefined;
  private stopped: "cancelled" | "too long" | undefined;
  private readonly settings: CaptureSettings;
  private readonly of: number | undefined;

  constructor(settings: CaptureSettings, of: number | undefined) {
    this.settings = settings;
    this.of = of;
  }

  /** False where nothing more is wanted. */
  push(piece: Uint8Array): boolean {
    this.bytes += piece.length;
    const wanted = this.take(piece);
    if (this.settings.goOn?.({ bytes: this.bytes, of: this.of, rows: this.csv?.rows ?? 0 }) === false) {
      this.stopped = "cancelled";
      return false;
    }
    return wanted;
  }

  private take(piece: Uint8Array): boolean {
    if (this.csv !== undefined) return this.csv.push(piece);
    // The caller may use its buffer again.
    this.waiting.push(piece.slice());
    this.waitingLength += piece.length;
    if (this.waitingLength < headSize) return true;
    this.format ??= this.settings.format ?? formatOf(this.held());
    if (this.format === "csv") return this.beginCsv();
    if (this.waitingLength > longestHeld) {
      this.stopped = "too long";
      return false;
    }
    return true;
  }

  private beginCsv(): boolean {
    this.csv = new CsvReader(this.settings);
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
    if (this.stopped === "cancelled")
      return {
        findings: [
          trouble({
            rule: "capture-cancelled",
            severity: "look",
            what: "reading was stopped before the end of the file",
            expected: "the whole file",
          }),
        ],
      };
    if (this.stopped === "too long")
      return {
        findings: [
          trouble({
            rule: "capture-too-long",
            what: `the file is longer than ${longestHeld / (1 << 20)} MiB`,
            expected: "a shorter record; a longer one as CSV, which is read by the piece",
          }),
        ],
      };
    if (this.csv !== undefined) return this.csv.finish();
    const whole = this.held();
    this.format ??= this.settings.format ?? formatOf(whole);
    if (this.format === "wav") return isWav(whole) ? readWav(whole, this.settings) : notWav();
    if (this.format === "json") return readJson(jsonText(whole), this.settings);
    this.beginCsv();
    return (this.csv as CsvReader | undefined)?.finish() ?? { findings: [] };
  }
}

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
  return /^\s*\{/.test(text) ? "json" : "csv";
}

function jsonText(bytes: Uint8Array): string {
  const { encoding, mark } = encodingOf(bytes);
  return textOf(asciiKeeper(encoding)(bytes.subarray(mark), true), encoding);
}
