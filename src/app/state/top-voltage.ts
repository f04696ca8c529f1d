/** The voltage at the top for which the layers are labelled: what somebody chose, else the one at which the top load breaks out. */
import { computed, signal } from "@preact/signals";
import { solution } from "./answers.ts";

/** [V], undefined until somebody chooses. */
export const chosenTopVoltage = signal<number | undefined>(undefined);

/** Shown while there is neither a choice nor a breakout voltage [V]. */
const fallback = 100e3;

/** [V] */
export const topVoltage = computed(() => {
  const breakout = solution.value?.figures.get("topload.breakoutVoltage")?.value;
  return chosenTopVoltage.value ?? (breakout === undefined ? fallback : Number(breakout.toPrecision(2)));
});
