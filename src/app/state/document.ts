/** The coil file on the table: its history, what is being previewed, what is on disk. */
import { computed, signal } from "@preact/signals";
import type { Edit } from "../../catalogue/finding.ts";
import type { Coil } from "../../description/coil.ts";
import type { CoilFile } from "../../workbench/contract.ts";
import { type EditedText, editText, readText } from "./coil-text.ts";
import { addStep, beginHistory, type History, present, redo, undo } from "./history.ts";

export interface OnDisk {
  readonly name: string;
  /** Undefined where nothing was ever saved. */
  readonly text: string | undefined;
  readonly version?: string | undefined;
  /** A demo coil: there to be looked at and copied. */
  readonly demo?: boolean;
}

export const history = signal<History>(beginHistory("", "Begin"));
/** A text that a drag or a held key shows before it is committed. */
export const preview = signal<string | undefined>(undefined);
export const onDisk = signal<OnDisk>({ name: "untitled.yaml", text: "" });

export const text = computed(() => preview.value ?? present(history.value).text);
export const file = computed<CoilFile>(() => readText(text.value));
export const dirty = computed(() => present(history.value).text !== onDisk.value.text);

export interface Drawable {
  readonly coil: Coil;
  readonly file: CoilFile;
}

let lastDrawable: Drawable | undefined;
/** What can be drawn now: the file's coil, or the last one that could be read while the text is being mended. */
export const drawable = computed<Drawable | undefined>(() => {
  const { coil } = file.value;
  if (coil !== undefined) lastDrawable = { coil, file: file.value };
  return lastDrawable;
});
/** True while the drawing is older than the text. */
export const stale = computed(() => file.value.coil === undefined);

/** Puts another file on the table; the old history goes with the old file. */
export function openText(next: OnDisk & { readonly text: string }, unsaved = false): void {
  lastDrawable = undefined;
  preview.value = undefined;
  onDisk.value = unsaved ? { ...next, text: undefined } : next;
  history.value = beginHistory(next.text, `Open ${next.name}`);
}

/** Commits a text as one step of the history. */
export function commitText(label: string, next: string, joins?: string): void {
  preview.value = undefined;
  const step = { text: next, label, at: performance.now() };
  history.value = addStep(history.value, joins === undefined ? step : { ...step, joins });
}

/** Commits edits as one step, or says why they cannot be made. */
export function commitEdits(label: string, edits: readonly Edit[], joins?: string): EditedText {
  const edited = editText(present(history.value).text, edits);
  if ("text" in edited) commitText(label, edited.text, joins);
  return edited;
}

/** Shows edits without committing them; edits that cannot be read are not shown. */
export function previewEdits(edits: readonly Edit[]): void {
  const edited = editText(present(history.value).text, edits);
  if ("text" in edited) preview.value = edited.text;
}

export const dropPreview = () => {
  preview.value = undefined;
};

export const undoStep = () => {
  preview.value = undefined;
  history.value = undo(history.value);
};
export const redoStep = () => {
  preview.value = undefined;
  history.value = redo(history.value);
};
