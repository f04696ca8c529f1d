/** What stand-off says of the coil on the table. */
import { computed, effect, signal } from "@preact/signals";
import type { Hazard } from "../../description/hazards.ts";
import type { CoilFile } from "../../workbench/contract.ts";
import { answer, roomFigures } from "../state/answers.ts";
import { commitEdits, drawable, file } from "../state/document.ts";
import { notice, room } from "../state/view.ts";
import { latestOnly, recordBench } from "../worker/bench.ts";
import type { StandoffAnswer } from "./standoff-work.ts";

export const found = signal<StandoffAnswer | undefined>(undefined);
export const behindStandoff = computed(() => found.value?.text !== file.value.text);

/** Asks whenever the room is open and the text was solved; called once. */
export function followStandoff(): void {
  const ask = latestOnly(
    (of: CoilFile) =>
      recordBench()
        .standoff(of)
        .catch((error: unknown) => {
          notice.value = `Stand-off could not be computed: ${error instanceof Error ? error.message : String(error)}`;
          return undefined;
        }),
    (got) => {
      if (got !== undefined) found.value = got;
    },
  );
  effect(() => {
    const solved = answer.value?.text === file.value.text && answer.value.solution !== undefined;
    if (room.value === "standoff" && solved && behindStandoff.value) ask(file.value);
  });
  effect(() => {
    const figures = found.value?.standoff?.figures;
    if (room.value !== "standoff" || figures === undefined) return;
    // beside those of other rooms, which stay known
    roomFigures.value = new Map([...(roomFigures.peek() ?? []), ...figures]);
  });
}

/** Writes into the coil file that somebody takes a hazard on, or takes it back. */
export function acknowledge(name: Hazard, taken: boolean): void {
  const names = drawable.peek()?.coil.show?.acknowledged ?? [];
  const next = taken ? [...names, name] : names.filter((one) => one !== name);
  const edited = commitEdits(taken ? `Take on ${name}` : `Take back ${name}`, [
    { path: "show.acknowledged", value: `[ ${next.join(", ")} ]` },
  ]);
  if ("problem" in edited) notice.value = edited.problem;
}
