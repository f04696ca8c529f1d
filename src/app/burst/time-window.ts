/** Which part of the burst is in view, and where the two cursors stand [s]. */
import { computed, signal } from "@preact/signals";
import { halfCycleAt, spanWithin, type WaveView } from "../../views/waveform.ts";
import type { Span } from "../../views/waveform-reduce.ts";
import { burst } from "./burst-state.ts";

export type CursorName = "A" | "B";

export const waves = computed(() => burst.value?.study.waveforms);
export const burstEnd = computed(() => waves.value?.time.at(-1) ?? 0);

/** What was asked to be in view; the whole burst where undefined. */
const asked = signal<Span | undefined>(undefined);
export const span = computed<Span>(() => {
  const end = burstEnd.value;
  return asked.value === undefined ? { from: 0, to: end } : spanWithin(asked.value, end, leastSpan());
});
export const isWhole = computed(() => span.value.from <= 0 && span.value.to >= burstEnd.value);

/** Waves or the peaks of their half-cycles. */
export const waveView = signal<WaveView>("waves");
/** Heights by what is in view instead of the whole burst. */
export const fitted = signal(false);

const placed = signal<Readonly<Record<CursorName, number | undefined>>>({ A: undefined, B: undefined });
/** The cursor that a press on the plot moves. */
export const active = signal<CursorName>("A");

/** Where the cursors stand: until somebody moves them, at the end of the driven time and two thirds of the way to it. */
export const cursors = computed<Readonly<Record<CursorName, number>>>(() => {
  const end = burstEnd.value;
  const driven = burst.value?.study.figures.get("burst.driveTime")?.value ?? end;
  const within = (time: number) => Math.min(Math.max(time, 0), end);
  return { A: within(placed.value.A ?? (driven * 2) / 3), B: within(placed.value.B ?? driven) };
});

/** A burst has a handful of half-cycles; a thousandth of it is finer than anything that happens in one. */
const leastSpan = () => burstEnd.peek() / 2000;

export function showSpan(next: Span): void {
  asked.value = spanWithin(next, burstEnd.peek(), leastSpan());
}

export function showWhole(): void {
  asked.value = undefined;
}

/** Shows the one half-cycle that the active cursor stands in, with a little of its neighbours. */
export function showHalfCycle(): void {
  const known = waves.peek();
  if (known === undefined) return;
  const { from, to } = halfCycleAt(known, cursors.peek()[active.peek()]);
  const edge = (to - from) * 0.15;
  showSpan({ from: from - edge, to: to + edge });
}

/** Zooms by a factor above one into the picture; `about` stays where it is. */
export function zoom(factor: number, about: number): void {
  const { from, to } = span.peek();
  const keep = Math.min(Math.max(about, from), to);
  const length = (to - from) / factor;
  if (length >= burstEnd.peek()) showWhole();
  else showSpan(shifted({ from: keep - (keep - from) / factor, to: keep + (to - keep) / factor }));
}

/** Moves the picture along by a time. */
export function pan(by: number): void {
  const { from, to } = span.peek();
  if (!isWhole.peek()) showSpan(shifted({ from: from + by, to: to + by }));
}

/** The span moved inside the burst, its length kept. */
function shifted({ from, to }: Span): Span {
  const by = from < 0 ? -from : Math.min(0, burstEnd.peek() - to);
  return { from: from + by, to: to + by };
}

export function placeCursor(name: CursorName, time: number): void {
  placed.value = { ...placed.peek(), [name]: Math.min(Math.max(time, 0), burstEnd.peek()) };
  active.value = name;
}

/** Moves a cursor by a time, and the picture with it where it would leave it. */
export function nudgeCursor(name: CursorName, by: number): void {
  placeCursor(name, cursors.peek()[name] + by);
  const at = cursors.peek()[name];
  const { from, to } = span.peek();
  if (at < from) pan(at - from);
  if (at > to) pan(at - to);
}
