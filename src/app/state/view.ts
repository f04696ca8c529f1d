/** What is shown and how; nothing of it is part of the coil. */
import { effect, signal } from "@preact/signals";

export type Theme = "paper" | "hall";
export type Layer = "potential" | "field" | "winding" | "peaks";

/** The room that is open. */
export const room = signal("shape");
export const theme = signal<Theme>("paper");
/** Layers painted on the drawing. */
export const layers = signal<ReadonlySet<Layer>>(new Set());
/** Id of the figure whose why is open. */
export const asked = signal<string | undefined>(undefined);
export const textShown = signal(false);
export const keysShown = signal(false);
export const findingsShown = signal(false);
/** Path whose field is open for editing on the drawing. */
export const editing = signal<string | undefined>(undefined);
/** Path that somebody jumped to; the drawing or the text brings it to the focus. */
export const sought = signal<{ readonly path: string; readonly line?: number | undefined } | undefined>(undefined);
/** One sentence about what just happened, shown and read aloud. */
export const notice = signal("");

/** Takes files that are dragged in and are no coil files, while a room wants them; with what they were dropped on. */
export const dropTaker = signal<((files: readonly File[], on: EventTarget | null) => void) | undefined>(undefined);

/** Follows the system's theme until somebody chooses, and remembers the choice. */
export function followTheme(): void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const kept = localStorage.getItem("coilwright.theme");
  theme.value = kept === "paper" || kept === "hall" ? kept : dark.matches ? "hall" : "paper";
  effect(() => {
    document.documentElement.dataset["theme"] = theme.value;
  });
}

/** Turns the lights on or off. */
export function toggleTheme(): void {
  theme.value = theme.value === "paper" ? "hall" : "paper";
  localStorage.setItem("coilwright.theme", theme.value);
}

/** Shows or hides a layer. */
export function toggleLayer(layer: Layer): void {
  const next = new Set(layers.value);
  if (!next.delete(layer)) next.add(layer);
  layers.value = next;
}
