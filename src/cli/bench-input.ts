/** Records and their fit, for what only asks about them. */
import type { Finding } from "../catalogue/finding.ts";
import type { CoilFile } from "../workbench/contract.ts";
import { type MatchRecord, match } from "../workbench/match.ts";
import type { Match } from "../workbench/match-contract.ts";
import { solve } from "../workbench/solve.ts";
import { readCaptureFile } from "./captures.ts";
import type { Io } from "./io.ts";
import { busesOf, channelSayings, dialectSettings, type MatchCommandOptions, statesOf } from "./match-options.ts";

export interface Bench {
  /** Absent where nothing could be compared, or no fit was asked for. */
  readonly match: Match | undefined;
  readonly records: readonly MatchRecord[];
  readonly findings: readonly Finding[];
}

/** @throws UserError  as `readCaptureFile` and the readers of the options */
export async function readBench(
  io: Io,
  file: CoilFile,
  {
    captureNames,
    options,
    fit,
  }: {
    captureNames: readonly string[];
    options: MatchCommandOptions /** Whether the coil is fitted too, which takes seconds. */;
    fit: boolean;
  },
): Promise<Bench> {
  const [states, buses] = [statesOf(options, captureNames.length), busesOf(options, captureNames.length)];
  const [sayings, settings] = [channelSayings(options), dialectSettings(options)];
  const records: MatchRecord[] = [];
  const findings: Finding[] = [];
  for (const [n, name] of captureNames.entries()) {
    const [state, busVoltage] = [states[n], buses[n]];
    const said = { ...(state ? { state } : {}), ...(busVoltage === undefined ? {} : { busVoltage }) };
    const capture = await readCaptureFile(io, name, { settings, sayings, said });
    if (capture.matched) records.push(capture.matched);
    findings.push(...capture.findings);
  }
  const made =
    fit && records.length > 0 ? match({ file, records, solve, onProgress: (says) => io.progress(says) }) : undefined;
  io.progress("");
  return { match: made, records, findings: [...findings, ...(made?.findings ?? [])] };
}
