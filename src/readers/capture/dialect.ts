/** How a record is written: what was found out about it, why, and what a person may set instead. */
import type { Finding } from "../../catalogue/finding.ts";
import type { BenchRecord, ChannelRole, Transducer } from "../../description/record.ts";
import type { Second } from "../../units/si.ts";

export type Format = "csv" | "wav" | "json";
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";
export type Delimiter = "," | ";" | "\t" | " " | "|";
export type Decimal = "." | ",";
/**
 * `index`: numbers its rows. `continuation`: later times, or later samples of another column, that stand beside the earlier ones.
 * `ignored`: empty, text, or a second time axis.
 */
export type ColumnUse = "time" | "channel" | "index" | "continuation" | "ignored";

/** Samples written as whole numbers of a converter: (written − reference) · increment + origin, in the unit of the column. */
export interface ConverterCodes {
  readonly increment: number;
  readonly origin: number;
  readonly reference: number;
}

export interface ColumnDialect {
  readonly name: string;
  readonly use: ColumnUse;
  /** As the file writes it, without brackets; empty where it writes none. */
  readonly written: string;
  /** SI unit of the samples, `1` where there is none. */
  readonly unit: string;
  /** SI value of one of the file's. */
  readonly factor: number;
  readonly role: ChannelRole;
  readonly transducer?: Transducer;
  /** Where the file has codes of a converter: how they become samples. */
  readonly codes?: ConverterCodes;
  /** Of a continuation: the column of the file, from 0, whose values go on here. */
  readonly continues?: number;
  /** A time column of clock times, `12:30:00.25` with or without a date; the record begins at 0. */
  readonly clock?: true;
}

/** Why a part of the dialect is as it is. */
export interface Reason {
  readonly part: "format" | "encoding" | "delimiter" | "decimal" | "headerLines" | "time" | `columns.${number}`;
  readonly because: string;
}

export interface Dialect {
  readonly format: Format;
  readonly encoding: Encoding;
  readonly delimiter: Delimiter;
  readonly decimal: Decimal;
  /** No number of the beginning has a decimal sign, and nobody set one. */
  readonly decimalAssumed?: true;
  /** Lines before the first row. */
  readonly headerLines: number;
  /** Of a row, from the left; of a WAV or JSON record, one for each channel. */
  readonly columns: readonly ColumnDialect[];
  /** Where the header gives it, or a person: then a time column is not used. */
  readonly interval?: Second;
  /** From the header where a time column is used all the same. */
  readonly intervalAnnounced?: Second;
  /** Time of the first row where no time column says it. */
  readonly start: Second;
  /** Rows that the header announces. */
  readonly rowsAnnounced?: number;
  readonly reasons: readonly Reason[];
}

/** Set instead of what would be found out. `unit` is written as in the coil file (`mV`). */
export interface ColumnSetting {
  readonly name?: string;
  readonly use?: ColumnUse;
  readonly unit?: string;
  /** Multiplies the samples, beside the unit: 10 for a probe that divides by ten and that the instrument did not know of. Default 1. */
  readonly scale?: number;
  /** `none`: the samples are no codes, whatever the header says. */
  readonly codes?: ConverterCodes | "none";
  readonly role?: ChannelRole;
  readonly transducer?: Transducer;
}

export interface Progress {
  readonly bytesRead: number;
  /** Of the whole, where it is known. */
  readonly bytesTotal: number | undefined;
  /** Of a CSV; 0 of the other formats until the end. */
  readonly rows: number;
}

export interface CaptureSettings {
  /** Of the record; usually the file's. */
  readonly name?: string;
  readonly format?: Format;
  readonly encoding?: Encoding;
  readonly delimiter?: Delimiter;
  readonly decimal?: Decimal;
  readonly headerLines?: number;
  /** By column, from 0; of WAV and JSON by channel. */
  readonly columns?: Readonly<Record<number, ColumnSetting>>;
  readonly interval?: Second;
  readonly start?: Second;
}

/** How a reading is watched and stopped while it goes on. */
export interface Watch {
  /** Bytes of the whole, where that is known. */
  readonly bytesTotal?: number;
  /** Called after each piece. */
  readonly onProgress?: (progress: Progress) => void;
  /** Once it is aborted, nothing more is taken from the source, which is closed; what was read is given up. */
  readonly signal?: AbortSignal;
  /** Waited for now and then: a source whose pieces are all at hand would never let its host hear that it should stop. */
  readonly breathe?: () => Promise<void>;
}

export interface CaptureReading {
  /** Absent where the bytes cannot be read as a record, or reading was stopped; `findings` says which. */
  readonly record?: BenchRecord;
  /** Absent where not even the format is known. */
  readonly dialect?: Dialect;
  readonly findings: readonly Finding[];
}
