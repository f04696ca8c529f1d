/** What the worker found for the text on the table. The last answer stays until the next is there. */
import { computed, effect, signal } from "@preact/signals";
import type { Solution } from "../../workbench/contract.ts";
import type { Answer } from "../worker/answer.ts";
import { bench, latestOnly } from "../worker/bench.ts";
import { preview, text } from "./document.ts";

/** The newest answer, for whatever text. */
export const answer = signal<Answer | undefined>(undefined);
/** The newest solution; stays while the text cannot be solved. */
export const solution = signal<Solution | undefined>(undefined);
/** True while the figures shown are not those of the text on the table. */
export const behind = computed(() => answer.value?.text !== text.value || answer.value?.solution === undefined);
let lastSettled: Answer | undefined;
/** The last answer to a committed text: what is read aloud and mapped. */
export const settled = computed(() => {
  const now = answer.value;
  if (preview.value === undefined && now?.text === text.value) lastSettled = now;
  return lastSettled;
});

/** Keeps the worker asked; called once. */
export function followText(): void {
  const ask = latestOnly(
    (question: string) => bench().answer(question),
    (got) => {
      answer.value = got;
      if (got.solution !== undefined) solution.value = got.solution;
    },
  );
  effect(() => {
    if (text.value !== "") ask(text.value);
  });
}
