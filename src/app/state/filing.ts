/** Opening, saving and what to do when somebody else wrote the file meanwhile. Nothing is ever overwritten silently. */
import { signal } from "@preact/signals";
import { del, get, set } from "idb-keyval";
import { browserHost } from "../host/browser-host.ts";
import type { Host, HostedFile, Saved } from "../host/host.ts";
import { serverHost } from "../host/server-host.ts";
import { commitText, dirty, history, onDisk, openText } from "./document.ts";
import { type Example, readExamples } from "./examples.ts";
import { present } from "./history.ts";
import { notice } from "./view.ts";

/** The file as it stands on disk, where it differs from the one that the text on the table was made from. */
export interface Conflict {
  readonly theirs: string | undefined;
  readonly version: string | undefined;
}

export const host = signal<Host>(browserHost());
export const conflict = signal<Conflict | undefined>(undefined);
export const examples = signal<readonly Example[]>([]);

/** The table coil: the kind that most people begin with. */
const shownFirst = "inkwell.yaml";
const draftKey = "coilwright.draft";

interface Draft {
  readonly name: string;
  readonly text: string;
  /** Version on disk that it was made from. */
  readonly base?: string | undefined;
}

/** Finds the host and the first file: the server's, else the draft that was left, else the first example. */
export async function begin(): Promise<void> {
  examples.value = readExamples();
  host.value = (await serverHost()) ?? host.peek();
  const first = await host.value.first();
  const draft = await get<Draft>(draftKey).catch(() => undefined);
  if (first !== undefined) {
    openText(first);
    if (draft?.base === first.version && draft?.name === first.name) takeUpDraft(draft.text);
    host.value.watch(onOutsideChange);
    return;
  }
  if (draft !== undefined) {
    openText(draft, true);
    notice.value = `Continued the draft of ${draft.name} kept in this browser`;
    return;
  }
  const example = examples.value.find(({ name }) => name === shownFirst) ?? examples.value[0];
  if (example !== undefined) openExample(example);
}

/** Changes that were not saved when the page was left come back as one step; they were made from the text that is still on disk. */
function takeUpDraft(text: string): void {
  commitText("Take up the changes that were not saved", text);
  notice.value = "Changes that were not saved last time are back; undo returns to the text on disk";
}

/** Asks before changes are left behind that nobody saved. */
const mayLeaveFor = (name: string) =>
  !dirty.value || confirm(`The changes to ${onDisk.value.name} are not saved. Leave them and open ${name}?`);

/** Puts an example on the table as a new, unsaved file. */
export function openExample({ name, text }: Example): void {
  if (!mayLeaveFor(name)) return;
  host.value.release();
  openText({ name, text, demo: true });
}

/** A file that was picked or dragged in. */
export function openPicked(file: HostedFile): void {
  if (!mayLeaveFor(file.name)) return;
  // what was open until now must not be replaced by this one
  host.value.release();
  file.adopt?.();
  openText({ name: file.name, text: file.text, version: file.version });
  notice.value = `Opened ${file.name}`;
}

export async function openFile(): Promise<void> {
  const picked = await host.value.open();
  if (picked === undefined) return;
  openPicked(picked);
}

/** Keeps the text in the browser while it is not saved. */
export function keepDraft(): void {
  const { name, version } = onDisk.value;
  const { text } = present(history.value);
  if (dirty.value) void set(draftKey, { name, text, base: version } satisfies Draft).catch(() => undefined);
  else if (history.value.steps.length > 1) void forgetDraft();
}

const forgetDraft = () => del(draftKey).catch(() => undefined);

async function settle(saved: Saved, text: string): Promise<void> {
  const { name } = onDisk.value;
  if (saved.kind === "cancelled") return;
  if (saved.kind === "failed") {
    notice.value = `Not saved: ${saved.why}`;
  } else if (saved.kind === "conflict") {
    conflict.value = { theirs: saved.text, version: saved.version };
  } else {
    const savedAs = saved.kind === "saved" ? (saved.name ?? name) : name;
    onDisk.value = { name: savedAs, text, version: saved.kind === "saved" ? saved.version : undefined };
    notice.value = saved.kind === "saved" ? `Saved ${savedAs}` : `Handed ${savedAs} to the browser's downloads`;
    if (saved.kind === "saved") await forgetDraft();
  }
}

export async function save(): Promise<void> {
  const { text } = present(history.value);
  const { name, version } = onDisk.value;
  await settle(await host.value.save({ name, text, base: version }), text);
}

export async function saveAs(): Promise<void> {
  const { text } = present(history.value);
  await settle(await host.value.saveAs({ name: onDisk.value.name, text }), text);
}

function onOutsideChange(found: HostedFile | undefined): void {
  if (found !== undefined && (found.version === onDisk.value.version || found.text === onDisk.value.text)) return;
  if (found !== undefined && !dirty.value) {
    commitText("Take over the change on disk", found.text);
    onDisk.value = found;
    notice.value = `${found.name} changed on disk and was taken over; undo brings the earlier text back`;
    return;
  }
  conflict.value = { theirs: found?.text, version: found?.version };
}

/** Saves the text on the table over the version that stands on disk. Somebody chose this. */
export async function keepMine(): Promise<void> {
  const { version } = conflict.value ?? {};
  conflict.value = undefined;
  const { text } = present(history.value);
  await settle(await host.value.save({ name: onDisk.value.name, text, base: version }), text);
}

/** Puts the text from disk on the table, as one step that undo takes back. */
export function takeTheirs(): void {
  const { theirs, version } = conflict.value ?? {};
  conflict.value = undefined;
  if (theirs === undefined) return;
  commitText("Take the text from disk", theirs);
  onDisk.value = { name: onDisk.value.name, text: theirs, version };
}
