/** The burst at the setting of the sliders. The sliders change no file; what they ask is answered by the worker, the newest question only. */
import { computed, effect, signal } from "@preact/signals";
import type { Figure } from "../../catalogue/figure.ts";
import type { BurstSetting } from "../../workbench/burst-contract.ts";
import type { CoilFile } from "../../workbench/contract.ts";
import { answer, solution } from "../state/answers.ts";
import { file, onDisk } from "../state/document.ts";
import { notice, room } from "../state/view.ts";
import type { StudiedBurst } from "../worker/answer.ts";
import { latestOnly, quickBench } from "../worker/bench.ts";

/** What the sliders have moved away from the file. */
export const moved = signal<BurstSetting>({});
/** The newest burst; stays, dimmed, until the next is there. */
export const burst = signal<StudiedBurst | undefined>(undefined);
/** True while the burst shown is not that of the text and the sliders. */
export const burstBehind = computed(
  () => burst.value === undefined || burst.value.text !== file.value.text || burst.value.setting !== moved.value,
);

const inBurstRoom = computed(() => room.value === "burst" || room.value === "driver");
/** The figures of the coil at rest and of the burst at the setting, as one list. */
export const shownFigures = computed(() => {
  const still = solution.value?.figures;
  // where the sliders are out of sight, they move no figure
  const driven = inBurstRoom.value ? burst.value?.study.figures : answer.value?.burstFigures;
  return still && driven ? new Map([...still, ...driven]) : still;
});

/** The burst as lists of figures and findings show it: while a slider moves, they follow a few times a second. */
export const calmBurst = signal<StudiedBurst | undefined>(undefined);
export const calmFigures = computed(() => {
  const still = solution.value?.figures;
  const driven = calmBurst.value?.study.figures;
  return still && driven ? new Map([...still, ...driven]) : still;
});
/** [ms] */
const calm = 120;

/** A figure of the coil at rest or of the burst shown. */
export const shownFigure = (id: string): Figure | undefined => shownFigures.value?.get(id);

/** Moves one thing away from the file, or back to it where undefined. */
export function move<K extends keyof BurstSetting>(key: K, value: BurstSetting[K] | undefined): void {
  const { [key]: _, ...others } = moved.value;
  moved.value = value === undefined ? others : { ...others, [key]: value };
}

interface Question {
  readonly file: CoilFile;
  readonly setting: BurstSetting;
}

/** Keeps the burst of an open room up to date; called once. */
export function followBursts(): void {
  const ask = latestOnly(
    ({ file: asked, setting }: Question) =>
      quickBench()
        .burst(asked, setting)
        // the worker gets a copy: the question is told from others by what was asked here
        .then((got) => got && { ...got, setting })
        .catch((error: unknown) => {
          notice.value = `The burst could not be computed: ${error instanceof Error ? error.message : String(error)}`;
          return undefined;
        }),
    (got) => {
      if (got !== undefined) burst.value = got;
    },
  );
  let of = onDisk.peek().name;
  effect(() => {
    // another coil begins with its own setting
    if (onDisk.value.name === of) return;
    of = onDisk.value.name;
    moved.value = {};
    burst.value = undefined;
  });
  let waiting: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const next = burst.value;
    if (next === undefined || calmBurst.peek() === undefined) calmBurst.value = next;
    else if (waiting === undefined) {
      waiting = setTimeout(() => {
        waiting = undefined;
        calmBurst.value = burst.peek();
      }, calm);
    }
  });
  effect(() => {
    const solved = answer.value?.text === file.value.text && answer.value.solution !== undefined;
    if (solved && inBurstRoom.value) ask({ file: file.value, setting: moved.value });
  });
}
