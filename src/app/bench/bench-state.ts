/** Records on the bench and what the fit to them says. Slow work is asked of a worker of its own; it keeps the records. */
import { computed, effect, signal } from "@preact/signals";
import { proxy } from "comlink";
import type { Edit } from "../../catalogue/finding.ts";
import type { Transducer } from "../../description/record.ts";
import type { Prediction } from "../../views/match-plot.ts";
import { againstAdopting } from "../../workbench/match-seen.ts";
import { settled } from "../state/answers.ts";
import { commitEdits, file, history, onDisk } from "../state/document.ts";
import { present } from "../state/history.ts";
import { notice, room } from "../state/view.ts";
import { recordBench } from "../worker/bench.ts";
import type { BenchProgress, CaptureView, MatchAnswer, Sayings } from "../worker/bench-answer.ts";
import { addEntry, moment } from "./bench-log.ts";

export const captures = signal<readonly CaptureView[]>([]);
/** What the worker is at; undefined while it rests. */
export const progress = signal<BenchProgress | undefined>(undefined);
/** The newest match; stays, dimmed, until the next is there. */
export const matched = signal<MatchAnswer | undefined>(undefined);
export const matchBehind = computed(
  () => matched.value !== undefined && (progress.value !== undefined || matched.value.text !== file.value.text),
);
export const prediction = signal<Prediction>("fitted");

const chosen = signal<number | undefined>(undefined);
/** Id of the record that the pictures show. */
export const shownId = computed(() =>
  captures.value.some(({ id }) => id === chosen.value)
    ? chosen.value
    : captures.value.find(({ kind }) => kind !== "none")?.id,
);
export const showRecord = (id: number): void => {
  chosen.value = id;
};

/** The files of the page by the id of their record. */
const sources = new Map<number, File>();
let lastId = 0;
let queue: { readonly id: number; readonly file: File; readonly says: Sayings }[] = [];
let reading: Promise<void> | undefined;

/** What the worker tells travels beside its answer, and may come after it: then it is not heard. */
async function told<T>(ask: (tell: (now: BenchProgress) => void) => Promise<T>): Promise<T> {
  let isOpen = true;
  const tell = proxy((now: BenchProgress) => {
    if (isOpen) progress.value = now;
  });
  try {
    return await ask(tell);
  } finally {
    isOpen = false;
  }
}

/** Reads files one after the other, and fits the coil to all records then. */
export function takeFiles(files: readonly File[], says: Sayings = { settings: {}, channels: {} }): void {
  queue.push(
    ...files.map((each) => {
      const id = ++lastId;
      sources.set(id, each);
      return { id, file: each, says };
    }),
  );
  void readNext();
}

/** What had been changed for a practice record, by its id. */
export const answers = signal<ReadonlyMap<number, string>>(new Map());
let practised = 0;

/** Lays a record on the bench that is made up from the coil as it is drawn now. */
export async function practise(): Promise<void> {
  const number = ++practised;
  progress.value = { says: "making up a record" };
  try {
    const made = await recordBench().practiceRecord(file.peek(), number);
    if (made === undefined) {
      notice.value = "No record can be made up: the file lacks what drives the coil";
      return;
    }
    const { name, csv, state, busVoltage, answer } = made;
    takeFiles([new File([csv], name)], { settings: {}, channels: {}, state, busVoltage });
    answers.value = new Map([...answers.peek(), [lastId, answer]]);
  } catch (error) {
    notice.value = `No record could be made up: ${error instanceof Error ? error.message : String(error)}`;
  } finally {
    if (reading === undefined) progress.value = undefined;
  }
}

/**
 * Reads one file for a step of the bring-up, made at a bus voltage; it lies on the bench then as any other.
 * @param transformer  of the coil file, for a current channel that has no scale of its own
 */
export async function readForStep(
  source: File,
  bus: number,
  transformer: Transducer | undefined,
): Promise<CaptureView | undefined> {
  takeFiles([source], bus > 0 ? { settings: {}, channels: {}, state: "low", busVoltage: bus } : undefined);
  const id = lastId;
  await readNext();
  const view = captures.value.find((one) => one.id === id);
  const scaleless = view?.channels.findIndex(
    (each) => each.role === "primaryCurrent" && each.unit !== "A" && each.transducer === undefined,
  );
  if (view === undefined || scaleless === undefined || scaleless < 0 || transformer === undefined) return view;
  await say(id, (says) => ({ ...says, channels: { ...says.channels, [scaleless]: { transducer: transformer } } }));
  return captures.value.find((one) => one.id === id);
}

/** One file after the other; whoever asks meanwhile waits for all. */
function readNext(): Promise<void> {
  reading ??= readAll().finally(() => {
    reading = undefined;
  });
  return reading;
}

async function readAll(): Promise<void> {
  for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
    const { id, file: source, says } = next;
    progress.value = { says: `reading ${source.name}`, share: 0 };
    try {
      const view = await told((tell) => recordBench().readCapture({ id, name: source.name, file: source, says }, tell));
      if (view === undefined) notice.value = `Reading ${source.name} was stopped; nothing of it was kept`;
      else {
        analysed.set(id, view.says);
        place(view);
      }
    } catch (error) {
      notice.value = `${source.name} could not be read: ${error instanceof Error ? error.message : String(error)}`;
    }
  }
  progress.value = undefined;
  void matchNow();
}

function place(view: CaptureView): void {
  const all = captures.value;
  captures.value = all.some(({ id }) => id === view.id)
    ? all.map((one) => (one.id === view.id ? view : one))
    : [...all, view];
}

/** Ends what is going on; what was there before stays. */
export function stopWork(): void {
  queue = [];
  void recordBench().stopBench();
}

export function removeRecord(id: number): void {
  captures.value = captures.value.filter((one) => one.id !== id);
  sources.delete(id);
  analysed.delete(id);
  void recordBench().forgetCapture(id);
  void matchNow();
}

/** Another dialect: the file is read again. */
export function readAgain(view: CaptureView, settings: Sayings["settings"]): void {
  const source = sources.get(view.id);
  if (source === undefined) return;
  queue.push({ id: view.id, file: source, says: { ...view.says, settings } });
  void readNext();
}

/** By record: what had been said of it when its figures were made. */
const analysed = new Map<number, Sayings>();

/** Something else about a record that was read. Shown at once; what it changes follows, and where that is stopped it is as it was before. */
export async function say(id: number, change: (says: Sayings) => Sayings): Promise<void> {
  const now = captures.value.find((one) => one.id === id);
  if (now === undefined) return;
  const says = change(now.says);
  place({ ...now, says });
  const said = await told((tell) => recordBench().tellOfCapture(now, says, tell));
  const then = captures.value.find((one) => one.id === id);
  // somebody may have said more meanwhile
  if (then?.says !== says) return;
  if (said === undefined) {
    place({ ...then, says: analysed.get(id) ?? then.says });
    notice.value = `Looking for bursts in ${then.name} was stopped; it is as it was before`;
    if (reading === undefined) progress.value = undefined;
    return;
  }
  analysed.set(id, says);
  place({ ...then, ...said, says });
  await matchNow();
}

/** Day of the page's clock, for comments. */
const today = () => moment().slice(0, 10);

/** What the newest match was made of, and what of it stands in the log. */
let loggedRecords = "";
const logged = signal<MatchAnswer | undefined>(undefined);
/** Whether the fit that is shown stands in the log. */
export const isLogged = computed(() => matched.value?.entry === undefined || logged.value === matched.value);
const recordsOf = ({ ids }: MatchAnswer) => ids.join(" ");

let matchesAsked = 0;

export async function matchNow(): Promise<void> {
  const mine = ++matchesAsked;
  const ids = captures.value.filter(({ kind }) => kind !== "none").map(({ id }) => id);
  if (ids.length === 0) {
    matched.value = undefined;
    return;
  }
  progress.value = { says: "fitting" };
  const asked = file.peek();
  try {
    const got = await told((tell) => recordBench().match({ file: asked, ids, date: today() }, tell));
    if (got === undefined) return;
    matched.value = got;
    // each new set of records is logged; what is corrected afterwards, on adoption or on request
    if (recordsOf(got) !== loggedRecords) logMatch();
  } catch (error) {
    notice.value = `The fit failed: ${error instanceof Error ? error.message : String(error)}`;
  } finally {
    if (mine === matchesAsked && reading === undefined) progress.value = undefined;
  }
}

export function logMatch(): void {
  const now = matched.peek();
  if (now?.entry === undefined || now === logged.peek()) return;
  logged.value = now;
  loggedRecords = recordsOf(now);
  void addEntry({ ...now.entry, at: moment() });
}

/** Why nothing can be adopted; undefined where it can. */
export const notAdopted = computed<string | undefined>(() => {
  const { match, refused } = matched.value ?? {};
  if (match === undefined) return refused ?? "no record has been read";
  const against = againstAdopting(match.findings);
  if (against !== undefined) return `nothing is adopted from this fit: ${against.what}`;
  if (matched.value?.text !== file.value.text) return "the fit to the text as it is now is not there yet";
  return match.adopt.length === 0 ? "the records know no number of the file better than it does" : undefined;
});

interface Adopted {
  readonly text: string;
  readonly edits: readonly Edit[];
  readonly isIn: boolean;
}
let adoptions: readonly Adopted[] = [];

/** Writes the fitted values into the text, as one step. */
export function adopt(): void {
  const edits = matched.peek()?.match?.adopt ?? [];
  if (notAdopted.peek() !== undefined) return;
  const done = commitEdits("Adopt fitted values", edits);
  if ("problem" in done) {
    notice.value = `Not adopted: ${done.problem}`;
    return;
  }
  notice.value = `Adopted: ${edits.map(({ path }) => path).join(", ")}`;
  logMatch();
  adoptions = [...adoptions, { text: present(history.peek()).text, edits, isIn: true }];
  void addEntry({ kind: "adopted", at: moment(), edits: edits.map(({ path, value = "" }) => ({ path, value })) });
}

/** Keeps the match up to date with the text, and the log with undo and redo; called once, when the room is first opened. */
export function followBench(): void {
  let of = onDisk.peek().name;
  effect(() => {
    const { steps, index } = history.value;
    if (onDisk.value.name !== of) {
      of = onDisk.value.name;
      adoptions = [];
      return;
    }
    adoptions = adoptions.map((each) => {
      const isIn = steps.slice(0, index + 1).some(({ text }) => text === each.text);
      if (isIn !== each.isIn) {
        const edits = each.edits.map(({ path, value = "" }) => ({ path, value }));
        void addEntry({ kind: isIn ? "adopted" : "withdrawn", at: moment(), edits });
      }
      return { ...each, isIn };
    });
  });
  effect(() => {
    const text = settled.value?.text;
    if (room.value !== "bench" || text === undefined || text !== file.value.text) return;
    if (matched.peek() === undefined || matched.peek()?.text === text) return;
    const timer = setTimeout(() => void matchNow(), 400);
    return () => clearTimeout(timer);
  });
}
