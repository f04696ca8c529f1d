/** What the workers found for the text on the table. The last answer stays until the next is there. */
import { computed, effect, signal } from "@preact/signals";
import type { Figures } from "../../catalogue/figure.ts";
import type { Finding } from "../../catalogue/finding.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import type { Answer, Study } from "../worker/answer.ts";
import { latestOnly, quickBench, slowBench } from "../worker/bench.ts";
import { file, preview, text } from "./document.ts";
import { notice } from "./view.ts";

/** The newest answer, for whatever text. */
export const answer = signal<Answer | undefined>(undefined);
/** The newest solution; stays while the text cannot be solved. */
export const solution = signal<Solution | undefined>(undefined);
/** Figures that a room works out for itself, e.g. of a programme; they come beside those of the coil. */
export const roomFigures = signal<Figures | undefined>(undefined);
/** Intervals of the newest text that was left in peace. */
export const study = signal<Study | undefined>(undefined);
/** True while the figures shown are not those of the text on the table. */
export const behind = computed(() => answer.value?.text !== text.value || answer.value?.solution === undefined);
/** Findings of the answer, with those that weigh doubts as soon as these are known. */
export const findings = computed<readonly Finding[]>(() =>
  study.value !== undefined && study.value.text === answer.value?.text
    ? study.value.findings
    : (answer.value?.findings ?? []),
);
/** Intervals that belong to the figures shown. */
export const doubts = computed(() => (study.value?.text === answer.value?.text ? study.value?.doubts : undefined));

let lastSettled: Answer | undefined;
/** The last answer to a committed text: what is read aloud, mapped and studied. */
export const settled = computed(() => {
  const now = answer.value;
  if (preview.value === undefined && now?.text === text.value) lastSettled = now;
  return lastSettled;
});

/** A text is studied when nobody has touched it for this long [ms]. */
const peace = 600;

/** Says what went wrong in a worker; the page goes on with what it has. */
const failing = (error: unknown): undefined => {
  notice.value = `The solver failed: ${error instanceof Error ? error.message : String(error)}`;
  return undefined;
};

/** Keeps the workers asked; called once. */
export function followText(): void {
  const ask = latestOnly(
    (question: CoilFile) => quickBench().answer(question).catch(failing),
    (got) => {
      if (got === undefined) return;
      answer.value = got;
      if (got.solution !== undefined) solution.value = got.solution;
    },
  );
  effect(() => {
    if (file.value.text !== "") ask(file.value);
  });
  // not one at a time: a newer study ends the older one
  const weigh = async (question: CoilFile) => {
    const got = await slowBench().study(question).catch(failing);
    if (got !== undefined) study.value = got;
  };
  effect(() => {
    const now = settled.value;
    if (now?.solution === undefined) return;
    const timer = setTimeout(() => void weigh(file.peek()), peace);
    return () => clearTimeout(timer);
  });
}
