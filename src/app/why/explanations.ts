/** Explanations of the figures that were asked about, kept for as long as the text stays. */
import { effect, signal } from "@preact/signals";
import type { CoilFile } from "../../workbench/contract.ts";
import { settled } from "../state/answers.ts";
import { file } from "../state/document.ts";
import { asked, room } from "../state/view.ts";
import type { Explained } from "../worker/answer.ts";
import { latestOnly, slowBench } from "../worker/bench.ts";

export const explained = signal<ReadonlyMap<string, Explained>>(new Map());

/** Figures that a room shows the sensitivities of. */
const roomWants: Readonly<Record<string, string>> = { resonance: "tuning.ratio" };

interface Question {
  readonly file: CoilFile;
  readonly id: string;
}

const askerOf = () =>
  latestOnly(
    async ({ file, id }: Question) => ({
      id,
      got: await slowBench()
        .explain(file, id)
        .catch(() => undefined),
    }),
    ({ id, got }) => {
      if (got !== undefined) explained.value = new Map(explained.value).set(id, got);
    },
  );

/** Keeps the explanations asked for; called once. */
export function followQuestions(): void {
  const askers = new Map<string, (question: Question) => void>();
  effect(() => {
    const now = settled.value;
    const wanted = new Set([asked.value, roomWants[room.value]].filter((id) => id !== undefined));
    if (now?.solution === undefined) return;
    for (const id of wanted) {
      if (!now.solution.figures.has(id) || explained.peek().get(id)?.text === now.text) continue;
      const ask = askers.get(id) ?? askerOf();
      askers.set(id, ask);
      ask({ file: file.peek(), id });
    }
  });
}
