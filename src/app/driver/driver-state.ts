/** Which part of the diagram is chosen, and the moment that is being explained. */
import { computed, signal } from "@preact/signals";
import { greatestEnergy, momentAt, type Store } from "../../views/half-cycle.ts";
import type { SchematicPart } from "../../views/schematic-data.ts";
import { shownFigure } from "../burst/burst-state.ts";
import { burstEnd, cursors, placeCursor, waves } from "../burst/time-window.ts";

export const chosen = signal<SchematicPart | undefined>(undefined);
export const playing = signal(false);

/** The moment is where cursor A of the waveforms stands [s]. */
export const momentTime = computed(() => cursors.value.A);
export const moveTo = (time: number) => placeCursor("A", time);
export const moveBy = (by: number) => moveTo(momentTime.peek() + by);

/** Length of one half-cycle [s]. */
export const halfCycle = computed(() => {
  const frequency = shownFigure("burst.frequency")?.value ?? shownFigure("poles.lower")?.value;
  return frequency === undefined ? burstEnd.value / 20 : 1 / (2 * frequency);
});

const store = computed<Store | undefined>(() => {
  const capacitance = shownFigure("tank.capacitance")?.value;
  const inductance = shownFigure("tank.inductance")?.value;
  return capacitance === undefined || inductance === undefined ? undefined : { capacitance, inductance };
});

export const moment = computed(() =>
  waves.value && store.value ? momentAt(waves.value, store.value, momentTime.value) : undefined,
);
/** Ends of the scales that the animation is drawn to, over the whole burst. */
export const greatest = computed(() => {
  if (waves.value === undefined || store.value === undefined) return undefined;
  const peak = (values: Float64Array) => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return {
    energy: greatestEnergy(waves.value, store.value),
    current: peak(waves.value.primaryCurrent),
    charge: 2 * store.value.capacitance * peak(waves.value.tankVoltage),
  };
});
