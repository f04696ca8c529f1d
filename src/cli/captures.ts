/** Records from files: read, told what the person says of them, and analysed; or a sweep. */
import type { Finding } from "../catalogue/finding.ts";
import type { BenchRecord, Channel } from "../description/record.ts";
import {
  type CaptureReading,
  type CaptureSettings,
  type Dialect,
  dialectSaid,
  frequencyColumn,
  type Progress,
  readCaptureInPieces,
  sweepFindings,
  sweepOf,
  sweepSaid,
  sweepSettings,
} from "../readers/capture.ts";
import type { MatchRecord, TimeRecord } from "../workbench/match.ts";
import { timeRecordSteps } from "../workbench/match-capture.ts";
import { stepByStep } from "../workbench/step-by-step.ts";
import { Interrupted, type Io, UserError } from "./io.ts";
import type { ChannelSayings } from "./match-options.ts";

export interface Capture {
  readonly name: string;
  readonly dialect?: Dialect;
  /** How it was read, in words. */
  readonly readAs?: string;
  /** Absent where the file is no record. */
  readonly matched?: MatchRecord;
  readonly findings: readonly Finding[];
}

/** What a sweep's cells may have wrong as those of any table. */
const ofCells: ReadonlySet<string> = new Set([
  "capture-not-a-number",
  "capture-missing",
  "capture-short-row",
  "capture-long-row",
  "capture-text-line",
  "capture-text-after-rows",
  "capture-last-line-cut",
]);

/** @throws UserError there is no such file, it cannot be read, a person stopped it, or a channel that was spoken of is not in it */
export async function readCaptureFile(
  io: Io,
  name: string,
  {
    settings,
    sayings,
    said,
  }: {
    settings: CaptureSettings;
    sayings: ChannelSayings;
    said: Pick<Extract<MatchRecord, { record: BenchRecord }>, "state" | "busVoltage">;
  },
): Promise<Capture> {
  const first = await readOnce(io, name, settings);
  const sweepColumn = frequencyColumn(first.dialect);
  if (first.dialect && sweepColumn !== undefined) {
    const read = await readOnce(io, name, sweepSettings(settings, first.dialect, sweepColumn));
    const sweep = read.record && sweepOf(read.record, first.dialect.columns[sweepColumn]!.name);
    if (sweep) {
      const state = said.state === "near" ? "near" : "cold";
      return {
        name,
        dialect: first.dialect,
        readAs: sweepSaid(read.dialect ?? first.dialect),
        matched: { name, sweep, state },
        findings: [...sweepFindings(first.findings), ...read.findings.filter(({ rule }) => ofCells.has(rule))],
      };
    }
  }
  const { record, dialect, findings } = first;
  const told = record && withSayings(record, sayings);
  const parts = { name, ...(dialect ? { dialect, readAs: dialectSaid(dialect, told) } : {}) };
  if (told === undefined) return { ...parts, findings };
  const matched = await lookAt(io, told, said);
  return { ...parts, matched, findings: [...findings, ...matched.reading.findings] };
}

const breathe = () => new Promise<void>((heard) => setTimeout(heard));

/** @throws Interrupted */
async function lookAt(io: Io, record: BenchRecord, said: Parameters<typeof timeRecordSteps>[1]): Promise<TimeRecord> {
  const onStep = (says: string) => io.progress(`${record.name}: looking for bursts, ${says}`);
  const looked = await io.interruptible((signal) =>
    stepByStep(timeRecordSteps(record, said), { onStep, breathe, signal }),
  );
  io.progress("");
  if (looked === undefined)
    throw new Interrupted(`${record.name}: it was read; looking for bursts in it was stopped, and nothing is kept`);
  return looked;
}

/** @throws Interrupted */
async function readOnce(io: Io, name: string, settings: CaptureSettings): Promise<CaptureReading> {
  const file = await io.pieces(name);
  if (file === undefined) throw new UserError(`there is no file ${name}`);
  let shown = "";
  const { reading, stopped } = await io.interruptible(async (signal) => ({
    reading: await readCaptureInPieces(file.pieces, {
      breathe,
      ...settings,
      name,
      ...(file.size > 0 ? { bytesTotal: file.size } : {}),
      onProgress: (progress) => {
        const says = progressText(name, progress);
        if (says !== shown) io.progress(says);
        shown = says;
      },
      signal,
    }),
    stopped: signal.aborted,
  }));
  io.progress("");
  if (stopped) throw new Interrupted(`${name}: ${reading.findings[0]?.what ?? "reading was stopped"}`);
  return reading;
}

function progressText(name: string, { bytesRead, bytesTotal, rows }: Progress): string {
  const part =
    bytesTotal === undefined ? `${Math.floor(bytesRead / 1e6)} MB` : `${Math.round((100 * bytesRead) / bytesTotal)} %`;
  return `${name}: ${part} read${rows < 1e5 ? "" : `, ${(rows / 1e6).toFixed(1)} million rows`}`;
}

/** Channels are spoken of by their number from 1, or by name. */
function withSayings(record: BenchRecord, { roles, transformers }: ChannelSayings): BenchRecord {
  const indexOf = (spoken: string): number => {
    const at = record.channels.findIndex(({ name }) => name === spoken);
    const number = at >= 0 ? at : Number(spoken) - 1;
    if (record.channels[number] === undefined) {
      const names = record.channels.map(({ name }, n) => `${n + 1} (${name})`).join(", ");
      throw new UserError(`${record.name} has no channel ${spoken}; it has ${names}`);
    }
    return number;
  };
  const byIndex = <T>(sayings: ReadonlyMap<string, T>) =>
    new Map([...sayings].map(([spoken, is]) => [indexOf(spoken), is]));
  const [role, transformer] = [byIndex(roles), byIndex(transformers)];
  return {
    ...record,
    channels: record.channels.map((channel, n): Channel => {
      const transducer = transformer.get(n) ?? channel.transducer;
      return { ...channel, role: role.get(n) ?? channel.role, ...(transducer ? { transducer } : {}) };
    }),
  };
}
