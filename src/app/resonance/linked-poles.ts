/** Poles under the crosshair of one plot; the other plot shows them as level lines [Hz]. */
import { signal } from "@preact/signals";

export const linkedPoles = signal<readonly number[]>([]);
