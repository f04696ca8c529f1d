/** The log of the bench beside the coil file: read, and made longer by one entry, whole or not at all. */
import { basename } from "node:path";
import { isLogEntry, type LogEntry, logNameOf, withEntry } from "../readers/bench-log.ts";
import { readCoilText, saveCoilText, type TextOnDisk } from "./coil-on-disk.ts";
import { ServeError } from "./errors.ts";

/** The longest entry that is taken [characters]; a match of a dozen records is a tenth of that. */
const longestEntry = 64 * 1024;

export interface LogOnDisk {
  readonly name: string;
  /** Empty where nothing was ever logged. */
  readonly text: string;
}

/** @param coil  path of the coil file */
export async function readBenchLog(coil: string): Promise<LogOnDisk> {
  const path = logNameOf(coil);
  const found = await readCoilText(path);
  return { name: basename(path), text: found?.text ?? "" };
}

/**
 * Adds an entry at the end, and gives back the whole log.
 * @throws ServeError  what stands there is no log of ours, or it was changed while this was written; it is then as it was
 */
export async function appendToBenchLog(coil: string, entry: LogEntry): Promise<LogOnDisk> {
  const path = logNameOf(coil);
  const before = await readCoilText(path);
  const text = withEntry(before?.text ?? "", entry);
  if (text === undefined) throw notOurs(path);
  const saved = await saveCoilText({ path, text, baseVersion: before?.version ?? null });
  if (saved.kind === "conflict") throw changedMeanwhile(path, saved.found);
  return { name: basename(path), text };
}

/** @throws ServeError  the body of a POST is not { entry } */
export function entryIn(body: unknown): LogEntry {
  if (typeof body === "object" && body !== null && "entry" in body && isLogEntry(body.entry)) {
    if (JSON.stringify(body.entry).length <= longestEntry) return body.entry;
    throw new ServeError({
      code: "entry-too-long",
      status: 413,
      message: `an entry of the log has at most ${longestEntry / 1024} KiB`,
    });
  }
  throw new ServeError({
    code: "wrong-body",
    status: 400,
    message: "{ entry } was expected: one entry of the log, with its kind and its date",
  });
}

const notOurs = (path: string) =>
  new ServeError({
    code: "not-a-log",
    status: 409,
    message: `${path} is there and is no log of Coilwright; it was left as it was. Move it away, and the next entry begins a new one`,
  });

const changedMeanwhile = (path: string, found: TextOnDisk | undefined) =>
  new ServeError({
    code: "log-changed",
    status: 409,
    message: `${path} was ${found === undefined ? "taken away" : "changed"} by another program while the entry was written; the entry was not added, try again`,
  });
