import type { Finding } from "../../catalogue/finding.ts";
import { type LogEntry, logNameOf, withEntry } from "../../readers/bench-log.ts";
import { editCoil, readCoil } from "../../readers/coil-file.ts";
import { matchHeadline } from "../../views/match-words.ts";
import { briefText } from "../../views/text/brief.ts";
import { findingsText } from "../../views/text/findings.ts";
import { matchJson } from "../../views/text/match-json.ts";
import { matchText } from "../../views/text/match-page.ts";
import { streamerMatchText } from "../../views/text/streamer-match.ts";
import { type MatchRecord, match as matchCoil } from "../../workbench/match.ts";
import type { Match } from "../../workbench/match-contract.ts";
import { adoptionEntry, matchEntry } from "../../workbench/match-log.ts";
import { againstAdopting, isMadeUp } from "../../workbench/match-seen.ts";
import { matchStreamer, type ObservedLength, type StreamerMatch } from "../../workbench/match-streamer.ts";
import { type PracticeRecord, practiceRecord } from "../../workbench/practice.ts";
import { solve } from "../../workbench/solve.ts";
import { type Capture, readCaptureFile } from "../captures.ts";
import { type CoilText, readInput } from "../coil-input.ts";
import { exit, exitFor } from "../exit.ts";
import { type Io, UserError } from "../io.ts";
import { observedLengths } from "../length-options.ts";
import {
  busesOf,
  channelSayings,
  dialectSettings,
  type MatchCommandOptions,
  practiceNumber,
  statesOf,
} from "../match-options.ts";

/** `coilwright match FILE CAPTURE…`: what the records say, and whether what was measured agrees with what was drawn. */
export async function match(
  io: Io,
  name: string,
  captureNames: readonly string[],
  options: MatchCommandOptions,
): Promise<number> {
  const [states, buses] = [
    statesOf(options, captureNames.length),
    captureNames.length === 0 ? [] : busesOf(options, captureNames.length),
  ];
  const [sayings, settings] = [channelSayings(options), dialectSettings(options)];
  const lengths = observedLengths(options, { withBus: captureNames.length === 0 });
  const practice = practiceNumber(options, captureNames.length);
  if (captureNames.length === 0 && lengths.length === 0 && practice === undefined) {
    throw new UserError("give a record, or a streamer's length that was seen, as in --observed-length 0.9m");
  }
  const input = await readInput(io, name);
  const file = readCoil(input.text);
  const { width, colour } = io;
  const captures: Capture[] = [];
  for (const [n, captureName] of captureNames.entries()) {
    const [state, busVoltage] = [states[n], buses[n]];
    const said = { ...(state ? { state } : {}), ...(busVoltage === undefined ? {} : { busVoltage }) };
    captures.push(await readCaptureFile(io, captureName, { settings, sayings, said }));
  }
  const made = practice !== undefined && file.coil ? practiceRecord(file.coil, { number: practice, solve }) : undefined;
  if (made) captures.push(await readPractice(io, made));
  const usable = captures.flatMap(({ matched }): MatchRecord[] => (matched ? [matched] : []));
  const fitted = file.coil && usable.length > 0 ? attempt(() => compare(io, file, usable)) : undefined;
  const found = fitted && "figures" in fitted ? fitted : undefined;
  const streamer = file.coil && lengths.length > 0 ? lengthsSay(io, file, lengths) : undefined;
  const findings: readonly Finding[] = [
    ...file.findings,
    ...captures.flatMap((capture) => capture.findings),
    ...(fitted && "refused" in fitted ? [notMatched(fitted.refused)] : []),
    ...(found?.findings ?? []),
    ...(streamer?.findings ?? []),
  ];
  const shown = captures.filter(({ matched }) => matched !== undefined);
  const readable = file.coil !== undefined && (shown.length > 0 || streamer !== undefined);
  const code = exitFor({ readable, findings });
  if (options.json)
    io.out(
      `${JSON.stringify({ ...matchJson({ match: found, captures, findings }), ...(streamer ? { streamer } : {}), ...(made ? { practice: made.answer } : {}) }, undefined, 2)}\n`,
    );
  else if ((found || streamer) && file.coil) {
    io.out(
      [
        ...(found
          ? [matchText({ match: found, captures: shown, name: file.coil.name, fileName: input.name, width, colour })]
          : []),
        ...(streamer ? [streamerMatchText(streamer, { fileName: input.name, width, colour })] : []),
        ...(made ? [`made up for practice: in this record ${made.answer}\n`] : []),
        briefText({ findings, fileName: input.name, width, colour }),
      ].join("\n"),
    );
  } else io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
  const toAdopt = [...(found?.adopt ?? []), ...(streamer?.adopt ?? [])];
  const adopted =
    options.adopt === true &&
    (found !== undefined || streamer !== undefined) &&
    (await adopt(io, input, { adopt: toAdopt, findings: found?.findings ?? [] }));
  const logged = options.log && !usable.some(isMadeUp);
  if (options.log && found && !logged) io.err("nothing was logged: the record was made up\n");
  if (logged && found) {
    const at = io.now();
    const entry = matchEntry({ match: found, records: usable, at, says: matchHeadline(found) });
    const adoption = adopted ? [adoptionEntry({ kind: "adopted", edits: found.adopt, at })] : [];
    await addToLog(io, input, [entry, ...adoption]);
  }
  return readable ? code : exit.unreadable;
}

/** The practice record, through the same reader as a file's. */
async function readPractice(io: Io, { name, csv, state, busVoltage }: PracticeRecord): Promise<Capture> {
  const bytes = new TextEncoder().encode(csv);
  async function* pieces() {
    yield bytes;
  }
  const withIt: Io = { ...io, pieces: async () => ({ size: bytes.length, pieces: pieces() }) };
  const sayings = channelSayings({});
  return await readCaptureFile(withIt, name, { settings: {}, sayings, said: { state, busVoltage } });
}

function lengthsSay(
  io: Io,
  file: ReturnType<typeof readCoil>,
  observed: readonly ObservedLength[],
): StreamerMatch | undefined {
  if (!file.coil) return undefined;
  io.progress("running trains of bursts against the lengths");
  const made = matchStreamer({ file, solution: solve(file.coil, { brief: true }), observed });
  io.progress("");
  return made;
}

function compare(io: Io, file: ReturnType<typeof readCoil>, records: readonly MatchRecord[]): Match {
  const made = matchCoil({
    file,
    records,
    solve,
    date: io.now().slice(0, 10),
    onProgress: (says) => io.progress(says),
  });
  io.progress("");
  return made;
}

function attempt(make: () => Match): Match | { readonly refused: string } {
  try {
    return make();
  } catch (error) {
    if (error instanceof RangeError) return { refused: error.message };
    throw error;
  }
}

const notMatched = (why: string): Finding => ({
  rule: "not-matched",
  severity: "stop",
  path: "",
  what: `this coil cannot be compared with the records (${why})`,
  expected: "a coil that can be solved",
  evidence: [],
  remedies: [{ says: "see what check says of the file", edits: [] }],
});

/** Whether the coil file has the fitted values now. */
async function adopt(
  io: Io,
  input: CoilText,
  { adopt: edits, findings }: Pick<Match, "adopt" | "findings">,
): Promise<boolean> {
  if (edits.length === 0) {
    const against = againstAdopting(findings);
    io.err(
      against
        ? `nothing is adopted from this fit: ${against.what}\n`
        : "nothing to adopt: the records know no number of the file better than it does\n",
    );
    return false;
  }
  const edited = editCoil(input.text, edits);
  if ("findings" in edited) throw new UserError(`the fitted values were not written: ${edited.findings[0]?.what}`);
  if (readCoil(edited.text).coil === undefined) {
    throw new UserError("the fitted values would leave a file that is no coil; nothing was changed");
  }
  if (input.version === undefined) {
    io.out(edited.text);
    return false;
  }
  await io.save(input.name, { text: edited.text, version: input.version });
  io.err(`${input.name}: ${edits.map(({ path }) => path).join(", ")} adopted\n`);
  return true;
}

/** @throws UserError what stands beside the coil file is no log, or it was changed meanwhile */
async function addToLog(io: Io, { name, version }: CoilText, entries: readonly LogEntry[]): Promise<void> {
  if (version === undefined) {
    io.err("nothing was logged: a log stands beside a coil file, and this one came from standard input\n");
    return;
  }
  const path = logNameOf(name);
  const before = await io.read(path);
  let text: string | undefined = before?.text ?? "";
  for (const entry of entries) text = text === undefined ? undefined : withEntry(text, entry);
  if (text === undefined) throw new UserError(`${path} is no log of Coilwright; it was left as it was, move it away`);
  await io.save(path, { text, version: before?.version ?? null });
  io.err(`${path}: ${entries.length === 1 ? "one entry" : `${entries.length} entries`} added\n`);
}
