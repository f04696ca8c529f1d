/** The log of a bench: one JSON value on each line, the first of which says that it is ours. */
import type { LogEntry } from "../description/bench-log.ts";

export type { LogEntry } from "../description/bench-log.ts";

const head = "coilwrightLog";
const format = 1;
/** Lists of each kind of entry: what a view walks through must be there. */
const lists: Readonly<Record<string, readonly string[]>> = {
  match: ["records", "fitted"],
  adopted: ["edits"],
  withdrawn: ["edits"],
  reading: [],
};

/** `lantern.yaml` → `lantern.bench.jsonl`: the log stands beside the coil file. */
export const logNameOf = (coilFile: string): string => `${coilFile.replace(/\.(ya?ml|json)$/i, "")}.bench.jsonl`;

export interface ReadLog {
  /** Oldest first. */
  readonly entries: readonly LogEntry[];
  /** Lines that are no entry, numbered from 1. They stay in the file. */
  readonly unread: readonly number[];
}

/** @returns undefined where the text does not begin as a log of ours does; an empty text is an empty log */
export function readLog(text: string): ReadLog | undefined {
  if (text.trim() === "") return { entries: [], unread: [] };
  const [first = "", ...lines] = text.replace(/^\ufeff/, "").split(/\r?\n/);
  const begins = parsed(first);
  if (!isRecord(begins) || begins[head] !== format) return undefined;
  const entries: LogEntry[] = [];
  const unread: number[] = [];
  lines.forEach((line, n) => {
    if (line.trim() === "") return;
    const value = parsed(line);
    if (isLogEntry(value)) entries.push(value);
    else unread.push(n + 2);
  });
  return { entries, unread };
}

/** The text with one entry more; undefined where the text is no log of ours. */
export function withEntry(text: string, entry: LogEntry): string | undefined {
  if (readLog(text) === undefined) return undefined;
  const before = text.trim() === "" ? `${JSON.stringify({ [head]: format })}\n` : text.replace(/([^\n])$/, "$1\n");
  return `${before}${JSON.stringify(entry)}\n`;
}

/** Whether a value that came from outside has the kind, the date and the lists of an entry. */
export function isLogEntry(value: unknown): value is LogEntry {
  if (!isRecord(value)) return false;
  const { kind, at } = value;
  if (typeof kind !== "string" || typeof at !== "string" || !Number.isFinite(Date.parse(at))) return false;
  if (!Object.hasOwn(lists, kind)) return false;
  if (kind === "reading") {
    const numbers = ["value", "expected", "low", "high"].every((key) => typeof value[key] === "number");
    if (!numbers || !["stage", "step", "says", "unit"].every((key) => typeof value[key] === "string")) return false;
  }
  return lists[kind]?.every((key) => Array.isArray(value[key]) && (value[key] as unknown[]).every(isRecord)) ?? false;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}
