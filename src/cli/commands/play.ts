import type { Finding } from "../../catalogue/finding.ts";
import { quantities } from "../../catalogue/quantities.ts";
import type { Song } from "../../description/song.ts";
import { assessProgramme } from "../../findings/index.ts";
import { kindOf, readSong, writeMidi } from "../../readers/song.ts";
import { formatQuantity } from "../../units/index.ts";
import { scheduleCsv, scheduleCsvHeader } from "../../views/schedule-csv.ts";
import { briefText } from "../../views/text/brief.ts";
import { findingsText, shellWord } from "../../views/text/findings.ts";
import { ledgerText } from "../../views/text/ledger.ts";
import { programmeText } from "../../views/text/programme.ts";
import { programmeJson } from "../../views/text/programme-json.ts";
import { whyText } from "../../views/text/why.ts";
import { explain } from "../../workbench/explain.ts";
import { joinedBytes } from "../../workbench/joined-bytes.ts";
import { planProgramme } from "../../workbench/programme.ts";
import type { ProgrammeStudy } from "../../workbench/programme-contract.ts";
import { gateWav, previewWav, scheduleFirmware } from "../../workbench/programme-outputs.ts";
import { glideSong } from "../../workbench/programme-tones.ts";
import { judge, readInput } from "../coil-input.ts";
import { exit, exitFor } from "../exit.ts";
import { type Io, UserError } from "../io.ts";
import { gateRateOf, type PlayOptions, programmeOptions, toneOf } from "../play-options.ts";
import { noSuchFigure } from "./why.ts";

/** The name that stands for standard output. */
const standardOutput = "-";

/**
 * `coilwright play SONG COIL`: what of a song may be played inside every limit, what it does to the coil, and where it goes from here.
 * With `--tone` or `--sweep` there is no song, and the first name is the coil's.
 */
export async function play(io: Io, first: string, second: string | undefined, options: PlayOptions): Promise<number> {
  const tone = toneOf(options);
  if (tone !== undefined && second !== undefined)
    throw new UserError(`${first}: with --tone or --sweep there is no song; give the coil file alone`);
  if (tone === undefined && second === undefined)
    throw new UserError("play needs a song and a coil file, or a coil file with --tone or --sweep");
  if ((options.csv === standardOutput ? 1 : 0) + (options.json ? 1 : 0) + (options.why === undefined ? 0 : 1) > 1)
    throw new UserError("only one of --csv -, --json and --why can go to standard output");
  const reading = tone ? { song: glideSong(tone), findings: [], text: "" } : await songFrom(io, first);
  const input = await readInput(io, second ?? first);
  const { width, colour } = io;
  const { file, solution, study, findings: ofCoil } = judge(input.text);
  const { coil } = file;
  const { song } = reading;
  if (song === undefined || coil === undefined || solution === undefined) {
    const findings: readonly Finding[] = song === undefined ? reading.findings : ofCoil;
    const told = song
      ? { of: "coil" as const, text: input.text, fileName: input.name }
      : { of: "song" as const, text: reading.text, fileName: first };
    if (options.json) io.out(`${JSON.stringify(programmeJson({ findings }), undefined, 2)}\n`);
    else io.out(findingsText({ ...told, findings, width, colour }));
    return exit.unreadable;
  }
  io.progress("planning");
  const programme = planProgramme(coil, solution, song, programmeOptions(options, song));
  io.progress("");
  const judged = assessProgramme({ file, solution, programme });
  const findings = [...reading.findings, ...judged, ...ofCoil];
  await send(io, programme, options);
  const code = exitFor({ readable: true, findings });
  if (options.csv === standardOutput) return code;
  if (options.why !== undefined) {
    const figures = new Map([...solution.figures, ...(study?.figures ?? []), ...programme.figures]);
    const explanation = explain({ file, solution: { ...solution, figures }, id: options.why });
    if (explanation === undefined) {
      const elsewhere = quantities.has(options.why);
      if (elsewhere) {
        throw new UserError(
          `${options.why} is no figure of what is played; ask: coilwright why ${shellWord(input.name)} ${options.why}`,
        );
      }
      throw noSuchFigure(options.why, [...programme.figures.keys()]);
    }
    io.out(whyText(explanation, { width, colour }));
    return exit.clean;
  }
  if (options.json) {
    io.out(`${JSON.stringify(programmeJson({ programme, findings }))}\n`);
    return code;
  }
  io.out(
    [
      programmeText({ name: coil.name, programme, fileName: input.name, width, colour }),
      ...(programme.figures.size > 0 ? [ledgerText({ figures: programme.figures, colour })] : []),
      briefText({
        findings: [...reading.findings, ...judged],
        elsewhere: ofCoil,
        fileName: input.name,
        width,
        colour,
      }),
    ].join("\n"),
  );
  return code;
}

/** With its text, where it is one. @throws UserError there is no such file, or it is a coil's */
async function songFrom(io: Io, name: string): Promise<{ song?: Song; findings: readonly Finding[]; text: string }> {
  const found = await io.pieces(name);
  if (found === undefined) throw new UserError(`there is no file ${name}`);
  const pieces: Uint8Array[] = [];
  for await (const piece of found.pieces) pieces.push(piece.slice());
  const bytes = joinedBytes(pieces);
  const kind = kindOf(bytes);
  if (kind === "coil") {
    throw new UserError(`${name} is a coil file, and the song comes first: coilwright play SONG ${shellWord(name)}`);
  }
  return { ...readSong(bytes, { fileName: name }), text: kind === "midi" ? "" : new TextDecoder().decode(bytes) };
}

/** Everything that goes to files; each is told in a line. */
async function send(io: Io, programme: ProgrammeStudy, options: PlayOptions): Promise<void> {
  const told = (path: string, beside = "") => io.err(`${path} written${beside === "" ? "" : `: ${beside}`}\n`);
  if (options.csv === standardOutput) io.out(scheduleCsv(programme));
  else if (options.csv !== undefined) {
    await io.write(options.csv, { text: scheduleCsv(programme), beginning: scheduleCsvHeader });
    told(options.csv);
  }
  if (options.wav !== undefined) {
    await io.write(options.wav, { text: joinedBytes(previewWav(programme)), beginning: "RIFF" });
    told(options.wav, "a preview, soft at first; it says nothing of how loud the coil is");
  }
  if (options.gateWav !== undefined) {
    const rate = gateRateOf(options.gateRate);
    const { pieces, error } = gateWav(programme, { rate, pulse: options.gateNegative ? "negative" : "positive" });
    await io.write(options.gateWav, { text: joinedBytes(pieces), beginning: "RIFF" });
    const time = (seconds: number) => formatQuantity(seconds, "s", { digits: 2 });
    told(
      options.gateWav,
      `starts within ${time(error.startWorst)}, on-times up to ${time(error.shortenedWorst)} shorter, ${error.lost} pulses lost; a sound card holds no limit by itself`,
    );
  }
  if (options.midi !== undefined) {
    const { bytes } = writeMidi(programme.song);
    await io.write(options.midi, { text: bytes, beginning: "MThd" });
    told(options.midi);
  }
  if (options.firmware !== undefined) {
    const files = attempt(() => scheduleFirmware(programme, { idlesHigh: options.idlesHigh ?? false }));
    if (files === undefined)
      throw new UserError("no firmware: the coil's file has no interrupter, so there is no limit to hold");
    await io.folder(options.firmware);
    for (const { name, text } of files)
      await io.write(`${options.firmware}/${name}`, { text, beginning: text.slice(0, text.indexOf("\n")) });
    told(options.firmware, `${files.length} files`);
  }
}

/** A schedule that the controller has no room for is something that a person can mend. */
function attempt<T>(make: () => T): T {
  try {
    return make();
  } catch (error) {
    if (error instanceof RangeError) throw new UserError(`no firmware: ${error.message}`);
    throw error;
  }
}
