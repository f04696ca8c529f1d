/** The teaching pictures of the coil on the table: which one is shown, and at which phase. */
import { computed, effect, signal } from "@preact/signals";
import type { Picture } from "../../views/pictures/picture.ts";
import { picturesOfCoil } from "../../views/pictures/pictures-of-coil.ts";
import type { Approach } from "../../workbench/approach.ts";
import type { CoilFile } from "../../workbench/contract.ts";
import { answer } from "../state/answers.ts";
import { file } from "../state/document.ts";
import { notice, room } from "../state/view.ts";
import type { StudiedBurst } from "../worker/answer.ts";
import { latestOnly, quickBench, recordBench } from "../worker/bench.ts";

interface Told {
  readonly file: CoilFile;
  readonly burst: StudiedBurst;
  readonly approach: Approach | undefined;
}

const told = signal<Told | undefined>(undefined);

export const pictures = computed<readonly Picture[]>(() => {
  const solution = answer.value?.solution;
  if (told.value === undefined || solution === undefined) return [];
  const { file: of, burst, approach } = told.value;
  if (of.coil === undefined || of.text !== answer.value?.text) return [];
  return picturesOfCoil({ coil: of.coil, solution, study: burst.study, approach });
});

const chosen = signal(0);
export const shownIndex = computed(() => Math.min(chosen.value, Math.max(0, pictures.value.length - 1)));
export const shown = computed(() => pictures.value[shownIndex.value]);
/** 0 to 1. */
export const phase = signal(0);
export const playing = signal(false);
export const presenting = signal(false);

/** Another picture begins with the phase that says most. */
export function show(index: number): void {
  const count = pictures.peek().length;
  if (count === 0) return;
  chosen.value = (index + count) % count;
  phase.value = shown.peek()?.still ?? 0;
}

/** Asks for what the pictures need whenever their room is open and the text was solved; called once. */
export function followPictures(): void {
  const ask = latestOnly(
    async (of: CoilFile): Promise<Told | undefined> => {
      try {
        const [burst, approach] = await Promise.all([quickBench().burst(of, {}), recordBench().approach(of)]);
        return burst && { file: of, burst, approach };
      } catch (error) {
        notice.value = `The pictures could not be made: ${error instanceof Error ? error.message : String(error)}`;
        return undefined;
      }
    },
    (got) => {
      if (got === undefined) return;
      const first = told.peek() === undefined;
      told.value = got;
      if (first) show(0);
    },
  );
  effect(() => {
    const solved = answer.value?.text === file.value.text && answer.value.solution !== undefined;
    if (solved && room.value === "papers" && told.peek()?.file.text !== file.value.text) ask(file.value);
  });
}
