/** Songs off the page's thread: read, planned inside the coil's limits, made into sound and files. */

import { transfer } from "comlink";
import type { Finding } from "../../catalogue/finding.ts";
import type { Coil } from "../../description/coil.ts";
import type { Song } from "../../description/song.ts";
import { assessProgramme, reasonWords } from "../../findings/index.ts";
import { readSong, writeMidi, writeNotation } from "../../readers/song.ts";
import { scheduleCsv } from "../../views/schedule-csv.ts";
import { programmeJson } from "../../views/text/programme-json.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { type Explanation, explain } from "../../workbench/explain.ts";
import { joinedBytes } from "../../workbench/joined-bytes.ts";
import { planProgramme } from "../../workbench/programme.ts";
import type { ProgrammeOptions, ProgrammeStudy } from "../../workbench/programme-contract.ts";
import {
  fateOf,
  gateWav,
  previewWav,
  reasons,
  scheduleFirmware,
  serialFirmware,
} from "../../workbench/programme-outputs.ts";
import { type PreviewPiece, previewKey, previewPiece } from "../../workbench/programme-preview.ts";
import { glideSong } from "../../workbench/programme-tones.ts";
import {
  fates,
  type KeySound,
  type OutputKind,
  type OutputSetting,
  type ProgrammeAnswer,
  type ShownProgramme,
  type SongSource,
  type Stretch,
  type Written,
  type WrittenFile,
} from "./programme-answer.ts";

interface Planned {
  readonly coil: Coil;
  readonly solution: Solution;
  readonly study: ProgrammeStudy;
  readonly findings: readonly Finding[];
}

/** The newest plan: what plays and what is written. */
let planned: Planned | undefined;

/** Solved coil of the newest question: what a single key is planned for. */
let coilNow: { readonly coil: Coil; readonly solution: Solution } | undefined;

function songOf(source: SongSource): { readonly song?: Song; readonly findings: readonly Finding[] } {
  if (source.kind === "glide") return { song: glideSong(source), findings: [] };
  const bytes = source.kind === "tune" ? new TextEncoder().encode(source.text) : source.bytes;
  return readSong(bytes, { fileName: source.name });
}

/** Reads and plans a song; what was planned before stays where this one cannot be read. */
export function planOf(
  { file, solution }: { readonly file: CoilFile; readonly solution: Solution },
  source: SongSource,
  options: ProgrammeOptions,
): ProgrammeAnswer {
  const { text, coil } = file;
  if (coil === undefined) return { text, songFindings: [] };
  coilNow = { coil, solution };
  const { song, findings: songFindings } = songOf(source);
  if (song === undefined) return { text, songFindings };
  const study = planProgramme(coil, solution, song, options);
  const findings = assessProgramme({ file, solution, programme: study });
  planned = { coil, solution, study, findings };
  const shown = shownOf(study, findings);
  return transfer({ text, songFindings, shown }, buffersOf(shown));
}

function shownOf(study: ProgrammeStudy, findings: readonly Finding[]): ShownProgramme {
  const { song, plan, figures, history, limits, limitsAssumed, voices, fit, missing, highest, litFrom } = study;
  const { schedule, asked, lowered } = plan;
  const { notes } = song;
  return {
    title: song.title ?? "untitled",
    duration: song.duration,
    notes: {
      start: Float64Array.from(notes, ({ start }) => start),
      end: Float64Array.from(notes, ({ end }) => end),
      pitch: Float32Array.from(notes, ({ pitch }) => pitch),
      velocity: Float32Array.from(notes, ({ velocity, level }) => velocity * level),
      voice: Uint16Array.from(notes, ({ voice }) => voice),
      noise: Uint8Array.from(notes, ({ sound }) => (sound === "noise" ? 1 : 0)),
      lowered: Uint8Array.from(notes, (_, note) => lowered[note] ?? 0),
    },
    pulses: {
      start: Float64Array.from(schedule.start),
      onTime: Float32Array.from(schedule.onTime),
      wantedOnTime: Float32Array.from(schedule.wantedOnTime),
      fate: Uint8Array.from(schedule.start, (_, at) => fates.indexOf(fateOf(plan, at))),
      reason: Uint8Array.from(schedule.reason),
      voice: Uint16Array.from(asked, (note) => notes[note]?.voice ?? 0),
    },
    history,
    figures,
    findings,
    limits,
    limitsAssumed,
    voices,
    reasons: study.reasons,
    because: reasons.map((reason) => ({ reason, says: reasonWords[reason] })),
    missing,
    ...(fit === undefined ? {} : { fit }),
    ...(highest === undefined ? {} : { highest }),
    ...(litFrom === undefined ? {} : { litFrom }),
  };
}

function buffersOf({ notes, pulses }: ShownProgramme): ArrayBuffer[] {
  return [...Object.values(notes), ...Object.values(pulses)].map(({ buffer }) => buffer);
}

/** Why a figure of the newest plan is what it is. What moves it is not tried: every try would be a plan of its own. */
export function explainFigure(
  { file, solution }: { readonly file: CoilFile; readonly solution: Solution },
  id: string,
): Explanation | undefined {
  if (planned === undefined) return undefined;
  const figures = new Map([...solution.figures, ...planned.study.figures]);
  return explain({ file, solution: { ...solution, figures }, id });
}

/** The sound of a stretch of what was planned; undefined where nothing was. */
export function soundOf(stretch: Stretch): PreviewPiece | undefined {
  if (planned === undefined) return undefined;
  const piece = previewPiece(planned.study, stretch);
  return transfer(piece, [piece.samples.buffer]);
}

/** One key for itself, to be played round and round. */
export function keyOf(pitch: number, setting: Pick<Stretch, "rate" | "volume">): KeySound | undefined {
  if (coilNow === undefined) return undefined;
  const { samples, lowered } = previewKey({ ...coilNow, pitch }, setting);
  return transfer({ samples, lowered }, [samples.buffer]);
}

/** What was planned, in one of its forms. */
export function writeOutput(kind: OutputKind, setting: OutputSetting): Written {
  if (planned === undefined) return { files: [], refused: "nothing has been planned" };
  try {
    const written = output(kind, planned, setting);
    return transfer(
      written,
      written.files.map(({ bytes }) => bytes.buffer),
    );
  } catch (error) {
    if (error instanceof RangeError) return { files: [], refused: error.message };
    throw error;
  }
}

function output(
  kind: OutputKind,
  { study, findings }: Planned,
  { gateRate, gatePulse, idlesHigh }: OutputSetting,
): Written {
  const name =
    (study.song.title ?? "programme")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "") || "programme";
  const text = (ending: string, words: string): Written => ({ files: [textFile(`${name}${ending}`, words)] });
  switch (kind) {
    case "preview":
      return { files: [{ name: `${name}-preview.wav`, bytes: joinedBytes(previewWav(study)) }] };
    case "gate": {
      const { pieces, error } = gateWav(study, { rate: gateRate, pulse: gatePulse });
      return { files: [{ name: `${name}-gate.wav`, bytes: joinedBytes(pieces) }], error };
    }
    case "csv":
      return text(".csv", scheduleCsv(study));
    case "json":
      return text(".json", JSON.stringify(programmeJson({ programme: study, findings })));
    case "midi":
      return { files: [{ name: `${name}.mid`, bytes: Uint8Array.from(writeMidi(study.song).bytes) }] };
    case "notation":
      return text(".tune", writeNotation(study.song));
    case "firmware":
      return program(scheduleFirmware(study, { idlesHigh }));
    case "follower":
      return program(serialFirmware(study, { idlesHigh }));
  }
}

const textFile = (name: string, words: string): WrittenFile => ({ name, bytes: new TextEncoder().encode(words) });

function program(files: ReturnType<typeof scheduleFirmware>): Written {
  if (files === undefined)
    return { files: [], refused: "the coil's file has no interrupter, so there is no limit to hold" };
  return { files: files.map(({ name, text }) => textFile(name, text)) };
}
