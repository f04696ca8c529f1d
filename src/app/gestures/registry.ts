/** The list of gestures. A new one is one entry here. */
import { dirty, history, redoStep, undoStep } from "../state/document.ts";
import { openFile, save, saveAs } from "../state/filing.ts";
import { canRedo, canUndo, redoLabel, undoLabel } from "../state/history.ts";
import { asked, findingsShown, keysShown, notice, textShown, theme, toggleTheme } from "../state/view.ts";
import type { Gesture } from "./gesture.ts";

const gestures = {
  undo: {
    id: "undo",
    label: "Undo",
    keys: ["Control+z"],
    undo: "walks",
    enabled: () => canUndo(history.value),
    detail: () => undoLabel(history.value),
    run: () => {
      notice.value = `Undone: ${undoLabel(history.value) ?? ""}`;
      undoStep();
    },
  },
  redo: {
    id: "redo",
    label: "Redo",
    keys: ["Control+Shift+z", "Control+y"],
    undo: "walks",
    enabled: () => canRedo(history.value),
    detail: () => redoLabel(history.value),
    run: () => {
      notice.value = `Done again: ${redoLabel(history.value) ?? ""}`;
      redoStep();
    },
  },
  save: {
    id: "save",
    label: "Save",
    keys: ["Control+s"],
    undo: "none",
    enabled: () => dirty.value,
    run: () => void save(),
  },
  saveAs: { id: "saveAs", label: "Save a copy…", keys: ["Control+Shift+s"], undo: "none", run: () => void saveAs() },
  open: { id: "open", label: "Open…", keys: ["Control+o"], undo: "none", run: () => void openFile() },
  text: {
    id: "text",
    label: "Text",
    keys: ["Control+e"],
    undo: "none",
    run: () => {
      textShown.value = !textShown.value;
    },
  },
  findings: {
    id: "findings",
    label: "Findings",
    keys: ["Control+i"],
    undo: "none",
    run: () => {
      findingsShown.value = !findingsShown.value;
    },
  },
  theme: {
    id: "theme",
    label: "Lights",
    keys: [],
    undo: "none",
    detail: () => (theme.value === "paper" ? "dark hall" : "lit workshop"),
    run: toggleTheme,
  },
  keys: {
    id: "keys",
    label: "Keys",
    keys: ["F1"],
    undo: "none",
    run: () => {
      keysShown.value = true;
    },
  },
  close: {
    id: "close",
    label: "Close",
    keys: ["Escape"],
    undo: "none",
    run: () => {
      if (asked.value !== undefined) asked.value = undefined;
      else findingsShown.value = false;
    },
  },
} as const satisfies Record<string, Gesture>;

export type GestureId = keyof typeof gestures;

/** The gesture of an id. */
export const gesture = (id: GestureId): Gesture => gestures[id];

export const allGestures = (): readonly Gesture[] => Object.values(gestures);

/** A key as it is printed on one, e.g. `Ctrl+Shift+Z`. */
export const shownKey = (key: string) =>
  key.replace("Control", "Ctrl").replace(/\b[a-z]$/, (letter) => letter.toUpperCase());

/** Name of a pressed key in the spelling of the registry. */
export function keyName(event: KeyboardEvent): string {
  const control = event.ctrlKey || event.metaKey ? "Control+" : "";
  const shift = event.shiftKey ? "Shift+" : "";
  return `${control}${shift}${event.key.length === 1 ? event.key.toLowerCase() : event.key}`;
}

/** Runs the gesture of a key wherever the focus is. Undo inside a text being typed stays with the field. */
export function listenForKeys(): void {
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented) return;
    const name = keyName(event);
    const found = allGestures().find(({ keys }) => keys.includes(name));
    if (found === undefined) return;
    const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
    if (typing && found.undo === "walks") return;
    if (event.target instanceof Element && event.target.closest("dialog") !== null) return;
    event.preventDefault();
    if (found.enabled?.() ?? true) found.run();
  });
}
