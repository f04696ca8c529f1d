/** The ways to change a dimension: pull its grip, press an arrow, type a value. All end as one named edit. */

import type { Dimension } from "../../views/drawing.ts";
import { pulledValue, writtenValue } from "../gestures/written-value.ts";
import { commitEdits, drawable, dropPreview, previewEdits } from "../state/document.ts";
import { editing, notice } from "../state/view.ts";

const labelOf = ({ says }: Dimension) => `Change ${says}`;

const editsFor = (dimension: Dimension, value: number) => {
  const provenances = drawable.value?.file.provenances ?? new Map();
  return [{ path: dimension.path, value: writtenValue(dimension, value, provenances) }];
};

/** The step of a pull or a press; Shift makes it a tenth. */
export const stepOf = ({ step, quantity }: Dimension, fine: boolean) =>
  fine && quantity !== "count" ? step / 10 : step;

/** Shows the value that a pull has come to. */
export function previewPull(dimension: Dimension, value: number, fine: boolean): number {
  const pulled = pulledValue(dimension, value, stepOf(dimension, fine));
  previewEdits(editsFor(dimension, pulled));
  return pulled;
}

/** Ends a pull as one step of the history. */
export function commitPull(dimension: Dimension, value: number): void {
  dropPreview();
  if (value === dimension.value) return;
  const done = commitEdits(labelOf(dimension), editsFor(dimension, value));
  if ("problem" in done) notice.value = done.problem;
}

/** One press of an arrow key; a held key makes one step. */
export function nudge(dimension: Dimension, direction: number, fine: boolean): void {
  const step = stepOf(dimension, fine);
  const value = pulledValue(dimension, dimension.value + direction * step, step);
  const done = commitEdits(labelOf(dimension), editsFor(dimension, value), `nudge ${dimension.path}`);
  if ("problem" in done) notice.value = done.problem;
}

/** Takes a typed text, or says what is wrong with it. */
export function commitTyped(dimension: Dimension, typed: string): string | undefined {
  const done = commitEdits(labelOf(dimension), [{ path: dimension.path, value: typed.trim() }]);
  if ("problem" in done) return done.problem;
  editing.value = undefined;
  return undefined;
}

/** Keys of a dimension that has the focus; true where the key was one of them. */
export function dimensionKey(dimension: Dimension, event: KeyboardEvent): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const steps: Readonly<Record<string, number>> = {
    ArrowUp: 1,
    ArrowRight: 1,
    ArrowDown: -1,
    ArrowLeft: -1,
    PageUp: 10,
    PageDown: -10,
  };
  const direction = steps[event.key];
  if (direction !== undefined) nudge(dimension, direction, event.shiftKey);
  else if (event.key === "Enter" || event.key === " ") editing.value = dimension.path;
  else return false;
  event.preventDefault();
  event.stopPropagation();
  return true;
}
