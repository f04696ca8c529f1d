/** The song on the desk, what was planned for it, and what of it is looked at. */
import { batch, computed, effect, signal } from "@preact/signals";
import type { CoilFile } from "../../workbench/contract.ts";
import type { ProgrammeOptions } from "../../workbench/programme-contract.ts";
import { answer, roomFigures } from "../state/answers.ts";
import { file } from "../state/document.ts";
import { room } from "../state/view.ts";
import { latestOnly, recordBench } from "../worker/bench.ts";
import type { ProgrammeAnswer, ShownProgramme, SongSource } from "./programme-answer.ts";

const texts = import.meta.glob<string>("../../../examples/*.tune", { query: "?raw", import: "default", eager: true });

const titleOf = (text: string): string => /^tune\s+([^#\n]+)/m.exec(text)?.[1]?.trim() ?? "untitled";

/** The tunes that are offered. */
export const tunes = Object.entries(texts)
  .map(([path, text]) => ({ name: path.split("/").at(-1) ?? path, title: titleOf(text), text }))
  .sort((a, b) => a.name.localeCompare(b.name));

const [firstTune] = tunes;

/** The text in the box; a song where the source is a tune. */
export const tuneText = signal(firstTune?.text ?? "");
export const source = signal<SongSource>({
  kind: "tune",
  name: firstTune?.name ?? "untitled.tune",
  text: tuneText.peek(),
});
export const options = signal<ProgrammeOptions>({});

interface Question {
  readonly file: CoilFile;
  readonly source: SongSource;
  readonly options: ProgrammeOptions;
}

export const planned = signal<ProgrammeAnswer | undefined>(undefined);
const plannedFor = signal<Question | undefined>(undefined);
/** True while the plan shown is not that of the coil, the song and the options on the desk. */
const behindPlan = computed(() => {
  const of = plannedFor.value;
  return of?.file.text !== file.value.text || of.source !== source.value || of.options !== options.value;
});

/** True where the song on the desk could not be planned: what is shown is older. */
export const unread = computed(() => planned.value !== undefined && planned.value.shown === undefined);
/** True while what is shown is not what is on the desk. */
export const staleShown = computed(() => behindPlan.value || unread.value);

/** The last song that could be read, as planned. */
export const shown = signal<ShownProgramme | undefined>(undefined);

/** Part of the programme that is in sight [s]. */
export const sight = signal<{ readonly from: number; readonly to: number }>({ from: 0, to: 1 });
/** Where the programme stands [s]. */
export const position = signal(0);

let sightOf: SongSource | undefined;

const failing = (question: Question, error: unknown): ProgrammeAnswer => {
  const failed = `the song could not be planned: ${error instanceof Error ? error.message : String(error)}`;
  return { text: question.file.text, songFindings: [], failed };
};

/** Plans whenever the room is open and the coil was solved; called once. */
export function followProgramme(): void {
  const ask = latestOnly(
    async (question: Question) => {
      const got = await recordBench()
        .programme(question.file, question.source, question.options)
        .catch((error: unknown) => failing(question, error));
      return { got, question };
    },
    // All at once: the picture is painted once.
    ({ got, question }) =>
      batch(() => {
        plannedFor.value = question;
        planned.value = got;
        if (got.shown === undefined) return;
        const { duration } = got.shown;
        // A tune that is being written stays where it is looked at, where that is still a part of it.
        const { from, to } = sight.peek();
        const isSame = sightOf === question.source;
        const wasWhole = from === 0 && to === Math.max(shown.peek()?.duration ?? 0, 0.1);
        if (!isSame || wasWhole || to > duration) {
          sightOf = question.source;
          sight.value = { from: 0, to: Math.max(duration, 0.1) };
          position.value = Math.min(isSame ? position.peek() : 0, duration);
        }
        shown.value = got.shown;
        roomFigures.value = got.shown.figures;
      }),
  );
  effect(() => {
    const solved = answer.value?.text === file.value.text && answer.value.solution !== undefined;
    if (room.value === "programme" && solved && behindPlan.value)
      ask({ file: file.value, source: source.value, options: options.value });
  });
}

/** Puts another song on the desk; what was set for the voices of the old one goes with it. */
export function takeSong(next: SongSource): void {
  const { muted: _muted, priorities: _priorities, ...others } = options.peek();
  options.value = others;
  source.value = next;
  if (next.kind === "tune") tuneText.value = next.text;
}

/** The text of the box, while it is written: the same song, its voices keep what was set for them. */
export function writeTune(text: string): void {
  const now = source.peek();
  tuneText.value = text;
  const next: SongSource = { kind: "tune", name: now.kind === "tune" ? now.name : "untitled.tune", text };
  if (sightOf === now && now.kind === "tune") sightOf = next;
  source.value = next;
}

/** Files that were chosen or dropped: the first one is taken. */
export async function takeFiles(files: readonly File[]): Promise<void> {
  const [first] = files;
  if (first === undefined) return;
  const bytes = new Uint8Array(await first.arrayBuffer());
  // A tune goes to the box, where it can be changed; what it is decides its beginning, not its name.
  const head = new TextDecoder().decode(bytes.subarray(0, 65_536));
  const isText = !head.includes("MThd") && !head.includes("\u0000");
  takeSong(
    isText
      ? { kind: "tune", name: first.name, text: new TextDecoder().decode(bytes) }
      : { kind: "file", name: first.name, bytes },
  );
}

/** Changes one of the options, or leaves it to the plan where undefined. */
export function setOption<K extends keyof ProgrammeOptions>(key: K, value: ProgrammeOptions[K] | undefined): void {
  const { [key]: _, ...others } = options.peek();
  options.value = value === undefined ? others : { ...others, [key]: value };
}

/** Lets a voice sound, or not. */
export function muteVoice(voice: number, isMuted: boolean): void {
  const others = (options.peek().muted ?? []).filter((one) => one !== voice);
  const muted = isMuted ? [...others, voice] : others;
  setOption("muted", muted.length > 0 ? muted : undefined);
}

/** Where a voice stands when two pulses cannot both be; undefined is the usual place. */
export function setPriority(voice: number, priority: number | undefined): void {
  const count = shown.peek()?.voices.length ?? 0;
  const now = options.peek().priorities ?? [];
  const priorities = Array.from({ length: count }, (_, n) => (n === voice ? priority : now[n]));
  setOption("priorities", priorities.some((one) => one !== undefined) ? priorities : undefined);
}

/** Shows a part of the programme, within its length. */
export function look({ from, to }: { readonly from: number; readonly to: number }): void {
  const duration = Math.max(shown.peek()?.duration ?? 1, 0.1);
  const width = Math.min(duration, Math.max(0.005, to - from));
  const begin = Math.min(duration - width, Math.max(0, from));
  sight.value = { from: begin, to: begin + width };
}

/** Zooms about the position where that is in sight, else about the middle. */
export function zoom(factor: number): void {
  const { from, to } = sight.peek();
  const at = position.peek();
  const about = at >= from && at <= to ? at : (from + to) / 2;
  look({ from: about - (about - from) * factor, to: about + (to - about) * factor });
}

/** Moves the sight by a share of its width. */
export function pan(share: number): void {
  const { from, to } = sight.peek();
  look({ from: from + share * (to - from), to: to + share * (to - from) });
}

/** Moves the position, and the sight with it where it would be lost. */
export function goTo(at: number): void {
  const duration = shown.peek()?.duration ?? 0;
  position.value = Math.min(duration, Math.max(0, at));
  const { from, to } = sight.peek();
  if (position.value < from || position.value > to) {
    const half = (to - from) / 2;
    look({ from: position.value - half, to: position.value + half });
  }
}
