/** The bring-up of the coil on the table, the readings made so far, and what was checked before hands went near. */
import { computed, effect, signal } from "@preact/signals";
import type { LoggedReading } from "../../description/bench-log.ts";
import type { BringUpStep } from "../../workbench/bringup-contract.ts";
import { settled } from "../state/answers.ts";
import { file } from "../state/document.ts";
import { notice, room } from "../state/view.ts";
import { latestOnly, recordBench } from "../worker/bench.ts";
import type { BringUpAnswer, CaptureView } from "../worker/bench-answer.ts";
import { addEntry, entries, moment } from "./bench-log.ts";

export const bringUp = signal<BringUpAnswer | undefined>(undefined);
export const bringUpBehind = computed(() => bringUp.value?.text !== file.value.text);
export const bringUpOpen = signal(false);

export const stageAt = signal(0);
/** What was ticked for the open stage: it counts for this approach only. */
export const checked = signal<ReadonlySet<string>>(new Set());

export function openStage(index: number): void {
  stageAt.value = index;
  checked.value = new Set();
}

export function tick(id: string, isDone: boolean): void {
  const next = new Set(checked.value);
  if (isDone) next.add(id);
  else next.delete(id);
  checked.value = next;
}

/** The newest reading of each step, from the log. */
export const readings = computed(() => {
  const newest = new Map<string, LoggedReading>();
  for (const entry of entries.value) {
    if (entry.kind === "reading" && !newest.has(entry.step)) newest.set(entry.step, entry);
  }
  return newest;
});

export function logReading(stage: string, step: BringUpStep, value: number, record?: string): void {
  const { expects } = step;
  if (expects === undefined) return;
  void addEntry({
    kind: "reading",
    at: moment(),
    stage,
    step: step.id,
    says: step.does,
    unit: expects.unit,
    value,
    expected: expects.value,
    low: expects.low,
    high: expects.high,
    ...(record === undefined ? {} : { record }),
  });
}

/** What a record says to a step, or why it says nothing. */
export function readFrom(view: CaptureView, { id, expects, probe }: BringUpStep): number | string {
  if (expects === undefined) return "this step has no number to compare";
  const { unit, value } = expects;
  const figure = (name: string) => view.figures.find((each) => each.id === name)?.value;
  const channel = (role: string) => view.channels.find((each) => each.role === role);
  if (view.kind === "none") return "the file is not a record that can be read";
  if (unit === "A") {
    const current = channel("primaryCurrent");
    if (current === undefined) return "no channel of it is the primary current; name the channel on the page Records";
    if (current.unit !== "A" && current.transducer === undefined)
      return "the current channel has no scale; give ratio and burden on the page Records, and drop it again";
    return current.peak;
  }
  if (unit === "Hz") {
    const heard = [
      figure("capture.carrier"),
      figure("capture.poles.lower"),
      figure("capture.poles.upper"),
      ...view.tones,
    ];
    const known = heard.filter((each): each is number => each !== undefined);
    // a sweep shows both poles: the one that is meant is the nearer
    const nearest = known.sort((a, b) => Math.abs(a - value) - Math.abs(b - value))[0];
    const meant = id.startsWith("low-frequency") ? (figure("capture.carrier") ?? nearest) : nearest;
    return meant ?? "no frequency could be read from it";
  }
  if (unit === "V") {
    const bus = /bus/.test(`${id} ${probe}`) ? channel("bus") : undefined;
    if (bus !== undefined) return bus.mean;
    const gate = channel("gate") ?? view.channels.find((each) => each.unit === "V");
    return gate === undefined
      ? "no channel of it is in volts"
      : id.startsWith("rail")
        ? gate.mean
        : gate.mean + gate.peak;
  }
  return `a record does not tell ${unit === "s" ? "the time" : "the quantity"} that this step asks for; type the reading`;
}

/** Keeps the sheet up to date while its page is open; called once, when the room is first opened. */
export function followBringUp(): void {
  const ask = latestOnly(
    (question: typeof file.value) =>
      recordBench()
        .bringUp(question)
        .catch((error: unknown) => {
          notice.value = `The bring-up could not be made: ${error instanceof Error ? error.message : String(error)}`;
          return undefined;
        }),
    (got) => {
      if (got !== undefined) bringUp.value = got;
    },
  );
  effect(() => {
    const text = settled.value?.text;
    if (room.value !== "bench" || !bringUpOpen.value || text !== file.value.text) return;
    if (bringUp.peek()?.text !== text) ask(file.peek());
  });
}
