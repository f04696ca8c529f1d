/** The burst at the setting of the sliders. The sliders change no file; what they ask is answered by the worker, the newest question only. */
import { computed, effect, signal } from "@preact/signals";
import type { Figure } from "../../catalogue/figure.ts";
import type { BurstSetting } from "../../workbench/burst-contract.ts";
import type { CoilFile } from "../../workbench/contract.ts";
import { answer, doubts, roomFigures, solution, study } from "../state/answers.ts";
import { file, onDisk } from "../state/document.ts";
import { notice, room } from "../state/view.ts";
import type { BurstDoubts, StudiedBurst } from "../worker/answer.ts";
import { latestOnly, quickBench, slowBench } from "../worker/bench.ts";

/** What the sliders have moved away from the file. */
export const moved = signal<BurstSetting>({});
/** The newest burst; stays, dimmed, until the next is there. */
export const burst = signal<StudiedBurst | undefined>(undefined);
/** True while the burst shown is not that of the text and the sliders. */
export const burstBehind = computed(
  () => burst.value === undefined || burst.value.text !== file.value.text || burst.value.setting !== moved.value,
);

const inBurstRoom = computed(() => room.value === "burst" || room.value === "driver");
/** The figures of the coil at rest, of the burst at the setting, and of what a room adds, as one list. */
export const shownFigures = computed(() => {
  const still = solution.value?.figures;
  // where the sliders are out of sight, they move no figure
  const driven = inBurstRoom.value ? burst.value?.study.figures : answer.value?.burstFigures;
  return still && new Map([...still, ...(driven ?? []), ...(roomFigures.value ?? [])]);
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

/** Intervals of the burst at the file's own setting. */
const burstDoubts = signal<BurstDoubts | undefined>(undefined);
/** Intervals that belong to the figures shown; a moved slider has none but those that the study brings. */
export const shownDoubts = computed(() => {
  const still = doubts.value;
  const driven = burstDoubts.value;
  const isOwn = driven !== undefined && driven.text === answer.value?.text && Object.keys(moved.value).length === 0;
  return still && isOwn ? new Map([...still, ...driven.doubts]) : still;
});

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
    // after the intervals of the coil at rest, which share their solves
    const of = study.value?.text;
    if (of === undefined || of !== file.value.text || !inBurstRoom.value || burstDoubts.peek()?.text === of) return;
    void slowBench()
      .burstDoubts(file.peek())
      .then((got) => {
        if (got !== undefined) burstDoubts.value = got;
      })
      .catch(() => undefined);
  });
  effect(() => {
    const solved = answer.value?.text === file.value.text && answer.value.solution !== undefined;
    if (solved && inBurstRoom.value) ask({ file: file.value, setting: moved.value });
  });
}
