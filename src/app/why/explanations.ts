/** Explanations of the figures that were asked about, kept for as long as the text stays. */
import { effect, signal } from "@preact/signals";
import type { BurstSetting } from "../../workbench/burst-contract.ts";
import type { CoilFile } from "../../workbench/contract.ts";
import { moved, shownFigure } from "../burst/burst-state.ts";
import { settled } from "../state/answers.ts";
import { file } from "../state/document.ts";
import { asked, room } from "../state/view.ts";
import type { Explained } from "../worker/answer.ts";
import { latestOnly, recordBench, slowBench } from "../worker/bench.ts";

export const explained = signal<ReadonlyMap<string, Explained>>(new Map());

/** Figures that a room shows the sensitivities of. */
const roomWants: Readonly<Record<string, string>> = { resonance: "tuning.ratio" };

interface Question {
  readonly file: CoilFile;
  readonly id: string;
  readonly setting: BurstSetting;
}

/** What was planned is known to the worker that planned it. */
const explanationOf = ({ file, id, setting }: Question) =>
  id.startsWith("programme.")
    ? recordBench().explainProgramme(file, id, setting)
    : slowBench().explain(file, id, setting);

const askerOf = () =>
  latestOnly(
    async ({ file, id, setting }: Question) => ({
      id,
      got: await explanationOf({ file, id, setting }).catch(() => undefined),
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
    const setting = moved.value;
    if (now?.solution === undefined) return;
    for (const id of wanted) {
      const known = explained.peek().get(id);
      // a figure of the coil at rest does not ask where the sliders stand
      const asItStands = known?.setting === setting || now.solution.figures.has(id);
      if (shownFigure(id) === undefined || (known?.text === now.text && asItStands)) continue;
      const ask = askers.get(id) ?? askerOf();
      askers.set(id, ask);
      ask({ file: file.peek(), id, setting });
    }
  });
}
