/** The log of the bench as the page sees it: read from the host, made longer by one entry. */
import { computed, signal } from "@preact/signals";
import { type LogEntry, readLog } from "../../readers/bench-log.ts";
import { download } from "../host/pick-file.ts";
import { onDisk } from "../state/document.ts";
import { host } from "../state/filing.ts";
import { notice } from "../state/view.ts";

const kept = signal<{ readonly name: string; readonly text: string } | undefined>(undefined);
/** Why the log cannot be read or written. */
export const logTrouble = signal<string | undefined>(undefined);
export const logName = computed(() => kept.value?.name);
const read = computed(() => readLog(kept.value?.text ?? ""));
/** Newest first. */
export const entries = computed(() => [...(read.value?.entries ?? [])].reverse());
export const unreadLines = computed(() => read.value?.unread ?? []);
export const isForeign = computed(() => read.value === undefined);

/** This moment of the page's clock, to the second. */
export const moment = (): string => new Date().toISOString().replace(/\.\d+/, "");

export async function loadLog(): Promise<void> {
  take(await host.peek().readLog(onDisk.peek().name));
}

/** Entries go in one after another. */
let writing: Promise<unknown> = Promise.resolve();

export function addEntry(entry: LogEntry): Promise<unknown> {
  writing = writing.then(async () => {
    const got = await host.peek().addToLog(onDisk.peek().name, entry);
    take(got);
    if ("why" in got) notice.value = `Not logged: ${got.why}`;
  });
  return writing;
}

function take(got: Awaited<ReturnType<typeof host.value.readLog>>): void {
  logTrouble.value = "why" in got ? got.why : undefined;
  if ("text" in got) kept.value = got;
}

/** Hands the log over as a download. */
export function exportLog(): void {
  const { name, text } = kept.peek() ?? { name: "bench.jsonl", text: "" };
  download({ name, text, type: "application/jsonl" });
}
