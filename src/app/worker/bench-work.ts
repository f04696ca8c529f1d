/** Records and the match, in the worker: read by the piece, kept, told what a person says of them, fitted step by step. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Coil } from "../../description/coil.ts";
import type { BenchRecord, Channel } from "../../description/record.ts";
import {
  type CaptureReading,
  frequencyColumn,
  readCaptureInPieces,
  sweepFindings,
  sweepOf,
  sweepSettings,
} from "../../readers/capture.ts";
import { matchHeadline } from "../../views/match-words.ts";
import { bringup } from "../../workbench/bringup.ts";
import { study as studyBurst } from "../../workbench/burst-stage.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { type MatchRecord, matchSteps } from "../../workbench/match.ts";
import { captureFigures, channelHeight, sweepPeaks, timeRecordSteps } from "../../workbench/match-capture.ts";
import type { Match } from "../../workbench/match-contract.ts";
import { matchEntry } from "../../workbench/match-log.ts";
import { overlays } from "../../workbench/match-overlay.ts";
import { isMadeUp } from "../../workbench/match-seen.ts";
import { type PracticeRecord, practiceRecord } from "../../workbench/practice.ts";
import { solve } from "../../workbench/solve.ts";
import { stepByStep } from "../../workbench/step-by-step.ts";
import type { BenchProgress, BringUpAnswer, CaptureView, MatchAnswer, Sayings } from "./bench-answer.ts";

interface Kept {
  readonly name: string;
  /** As the file has it. */
  readonly record?: BenchRecord;
  readonly matched?: MatchRecord;
}

const kept = new Map<number, Kept>();
let matches = 0;

/** Lets what came meanwhile go first, a wish to stop among it. */
const breathe = () => new Promise<void>((done) => setTimeout(done));

interface Question {
  readonly id: number;
  readonly name: string;
  readonly file: Blob;
  readonly says: Sayings;
}
/** How the page hears of the work, and is heard. */
export interface Heard {
  readonly tell: (progress: BenchProgress) => void;
  readonly signal: AbortSignal;
}

/** Reads a file of the page; undefined where it was stopped. What was there before stays. */
export async function read(
  { id, name, file, says }: Question,
  { tell, signal }: Heard,
): Promise<CaptureView | undefined> {
  let told = -1;
  const once = (settings: Sayings["settings"]): Promise<CaptureReading> =>
    readCaptureInPieces(file.stream(), {
      breathe,
      ...settings,
      name,
      bytesTotal: file.size,
      signal,
      onProgress: ({ bytesRead }) => {
        const percent = Math.floor((100 * bytesRead) / Math.max(1, file.size));
        if (percent !== told) tell({ says: `reading ${name}`, share: percent / 100 });
        told = percent;
      },
    });
  const first = await once(says.settings);
  const column = frequencyColumn(first.dialect);
  let sweep: ReturnType<typeof sweepOf>;
  if (column !== undefined && first.dialect !== undefined) {
    const again = await once(sweepSettings(says.settings, first.dialect, column));
    sweep = again.record && sweepOf(again.record, first.dialect.columns[column]?.name ?? "");
  }
  if (signal.aborted) return undefined;
  const { record, dialect, findings } = first;
  const about = dialect === undefined ? {} : { dialect };
  if (sweep !== undefined) {
    const state = says.state === "near" ? "near" : "cold";
    kept.set(id, { name, matched: { name, sweep, state } });
    const view = { id, name, says, ...about, kind: "sweep", samples: sweep.frequency.length } as const;
    return {
      ...view,
      interval: 0,
      channels: [],
      tones: sweepPeaks(sweep),
      figures: [],
      findings: sweepFindings(findings),
    };
  }
  return viewOf({ id, name, record }, says, { about: { findings, ...about }, heard: { tell, signal } });
}

/** The record again with what a person says of it now; undefined where it was stopped, or more was said meanwhile. */
export async function tellOf(
  view: Pick<CaptureView, "id" | "dialect" | "findings" | "kind">,
  says: Sayings,
  heard: Heard,
): Promise<Partial<CaptureView> | undefined> {
  const known = kept.get(view.id);
  if (known?.matched !== undefined && "sweep" in known.matched) {
    kept.set(view.id, { ...known, matched: { ...known.matched, state: says.state === "near" ? "near" : "cold" } });
    return { says };
  }
  // findings of the reader stay; those of the reading are made anew
  const about = { findings: view.findings.filter(({ path }) => path.startsWith("record")) };
  return known && viewOf({ id: view.id, ...known }, says, { about, heard });
}

/** By record: how often it was asked about; only the newest asking is answered. */
const asked = new Map<number, number>();

function newestAsking(id: number): () => boolean {
  const mine = (asked.get(id) ?? 0) + 1;
  asked.set(id, mine);
  return () => asked.get(id) === mine;
}

export function forget(id: number): void {
  kept.delete(id);
  newestAsking(id);
}

async function viewOf(
  { id, name, record }: { id: number; name: string; record?: BenchRecord | undefined },
  says: Sayings,
  { about: { findings, ...about }, heard }: { about: Pick<CaptureView, "dialect" | "findings">; heard: Heard },
): Promise<CaptureView | undefined> {
  if (record === undefined) {
    kept.set(id, { name });
    const nothing = { samples: 0, interval: 0, channels: [], tones: [], figures: [] } as const;
    return { id, name, says, ...about, kind: "none", ...nothing, findings };
  }
  const told = {
    ...record,
    channels: record.channels.map((channel, n): Channel => {
      const { role = channel.role, transducer = channel.transducer } = says.channels[n] ?? {};
      return { ...channel, role, ...(transducer === undefined ? {} : { transducer }) };
    }),
  };
  const { state, busVoltage } = says;
  const said = { ...(state === undefined ? {} : { state }), ...(busVoltage === undefined ? {} : { busVoltage }) };
  const matched = await stepByStep(timeRecordSteps(told, said), {
    onStep: (step) => heard.tell({ says: `looking for bursts in ${name}: ${step}` }),
    breathe,
    signal: heard.signal,
    isWanted: newestAsking(id),
  });
  if (matched === undefined) return undefined;
  kept.set(id, { name, record, matched });
  const own: readonly Finding[] = matched.reading.findings;
  return {
    id,
    name,
    says,
    ...about,
    kind: "time",
    samples: record.length,
    interval: record.interval,
    channels: told.channels.map((channel) => {
      const { samples: _, ...rest } = channel;
      return { ...rest, ...channelHeight(channel) };
    }),
    tones: [],
    figures: captureFigures(matched.reading),
    findings: [...findings.filter((one) => !own.some(({ what }) => what === one.what)), ...own],
  };
}

/** A record of this coil with something changed, made up to practise on. */
export const practice = (coil: Coil, number: number): PracticeRecord =>
  practiceRecord(coil, { number, solve: solveOnce });

/** The staged sheet of a coil. */
export function bringUpOf(file: CoilFile, solution: Solution): BringUpAnswer {
  if (file.coil === undefined) return { text: file.text, refused: "the file holds no coil that can be read" };
  try {
    const study = studyBurst(file.coil, solution, {}, { waveforms: true });
    return { text: file.text, sheet: bringup({ file, solution, study }) };
  } catch (error) {
    if (error instanceof RangeError) return { text: file.text, refused: error.message };
    throw error;
  }
}

/** A match moves the drawing's numbers one by one; what was solved for one record is there for the next, and for an undo. */
const solved = new Map<string, Solution>();
const mostSolved = 600;

function solveOnce(coil: Coil): Solution {
  const key = JSON.stringify(coil);
  const made = solved.get(key) ?? solve(coil, { brief: true });
  if (solved.size >= mostSolved) solved.clear();
  solved.set(key, made);
  return made;
}

/** Fits the coil to records that were read; undefined where it was stopped, or a newer match was asked for. */
export async function matchOf(
  {
    file,
    ids,
    date,
    solution,
  }: {
    file: CoilFile;
    ids: readonly number[];
    date: string;
    solution: Solution;
  },
  { tell, signal }: Heard,
): Promise<MatchAnswer | undefined> {
  const mine = ++matches;
  const usable = ids.flatMap((id) => {
    const record = kept.get(id)?.matched;
    return record === undefined ? [] : [{ id, record }];
  });
  const records = usable.map(({ record }) => record);
  let match: Match | undefined;
  let refused: string | undefined;
  try {
    const steps = matchSteps({ file, records, solve: solveOnce, solution, date });
    for (;;) {
      const { done, value } = steps.next();
      if (done) {
        match = value;
        break;
      }
      tell({ says: value });
      await breathe();
      if (signal.aborted || mine !== matches) return undefined;
    }
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    refused = error.message;
  }
  const { at: _, ...entry } =
    match === undefined || records.some(isMadeUp)
      ? { at: "" }
      : matchEntry({ match, records, at: "", says: matchHeadline(match) });
  return {
    text: file.text,
    ids: usable.map(({ id }) => id),
    ...(match === undefined ? {} : { match }),
    ...(refused === undefined ? {} : { refused }),
    ...("kind" in entry ? { entry } : {}),
    overlays: records.map((record, index) => ("record" in record ? overlays(record, { solution, match, index }) : [])),
    sweeps: records.map((record) =>
      "sweep" in record
        ? {
            frequency: Float64Array.from(record.sweep.frequency),
            amplitude: Float64Array.from(record.sweep.amplitude),
          }
        : undefined,
    ),
  };
}
