import type { Finding } from "../../catalogue/finding.ts";
import { reasonAgainst, type SheetSubject, sheetFiles, showDayBlocks } from "../../views/sheets/index.ts";
import { findingsText } from "../../views/text/findings.ts";
import { burstsOf, judge, readInput } from "../coil-input.ts";
import { exit, exitFor } from "../exit.ts";
import { type Io, UserError } from "../io.ts";
import { type PapersCommandOptions, type PapersWanted, papersWanted } from "../papers-options.ts";
import { writePictures } from "../pictures-output.ts";
import { sheetFonts } from "../sheet-fonts.ts";

/** `coilwright papers FILE --out DIR`: the sheets that are taken to the bench, at true size. */
export async function papers(io: Io, name: string, options: PapersCommandOptions): Promise<number> {
  const wanted = papersWanted(options, io.today());
  const input = await readInput(io, name);
  const judged = judge(input.text, { waveforms: wanted.pictures !== undefined });
  const { file, solution, findings } = judged;
  const bursts = burstsOf(judged);
  const readable = file.coil !== undefined;
  if (!file.coil || !solution || !bursts.study) {
    if (options.json) io.out(`${JSON.stringify({ written: [], without: [], findings }, undefined, 2)}\n`);
    else io.out(findingsText({ findings, text: input.text, fileName: input.name, width: io.width, colour: io.colour }));
    return exitFor({ readable, findings });
  }
  const fileName = input.name.split(/[/\\]/).at(-1) ?? input.name;
  const subject: SheetSubject = { file, coil: file.coil, solution, ...bursts, study: bursts.study, fileName };
  const fonts = sheetFonts();
  const written: string[] = [];
  const listed: string[] = [];
  const without: NotWritten[] = [];
  const folder = options.out.replace(/[/\\]+$/, "");
  await io.folder(options.out);
  for (const sheet of wanted.sheets) {
    io.progress(`laying out ${sheet.title}`);
    const says = reasonAgainst(sheet, subject);
    if (says !== undefined) {
      without.push({ sheet: sheet.id, says });
      continue;
    }
    for (const { name: made, content, beginning } of await sheetFiles(sheet, subject, { ...wanted, fonts })) {
      const path = `${folder}/${made}`;
      await io.write(path, { text: content, beginning });
      written.push(path);
      listed.push(path);
    }
  }
  if (wanted.pictures) {
    const pictures = await writePictures(io, {
      coil: file.coil,
      solution,
      study: bursts.study,
      folder,
      ...wanted.pictures,
    });
    written.push(...pictures.written);
    listed.push(...pictures.listed);
    without.push(...pictures.without);
  }
  io.progress("");
  // the sheet that people stand by is held back for a reason that they must read
  const blocks: readonly Finding[] = without.some((one) => "sheet" in one && one.sheet === "show-day")
    ? showDayBlocks(subject)
    : [];
  if (wanted.named && written.length === 0 && blocks.length === 0)
    throw new UserError(
      `nothing to write: ${without.map(notWritten).join("; ") || `no sheet that was asked for has a file of ${wanted.formats.join(" or ")}`}`,
    );
  if (options.json) io.out(`${JSON.stringify({ written, without, findings: blocks }, undefined, 2)}\n`);
  else io.out(reportText({ written, listed, without, wanted }));
  return blocks.length > 0 ? exit.findings : exitFor({ readable, findings });
}

type NotWritten =
  | { readonly sheet: string; readonly says: string }
  | { readonly picture: string; readonly says: string };

const notWritten = (one: NotWritten): string => `${"sheet" in one ? one.sheet : `picture-${one.picture}`}: ${one.says}`;

function reportText({
  written,
  listed,
  without,
  wanted,
}: {
  written: readonly string[];
  /** The same, a series in one line. */
  listed: readonly string[];
  without: readonly NotWritten[];
  wanted: PapersWanted;
}): string {
  const count = `${written.length} ${written.length === 1 ? "file" : "files"}`;
  return `${[
    ...listed,
    ...(without.length > 0 ? ["", "not written:", ...without.map((one) => `  ${notWritten(one)}`)] : []),
    "",
    ...(wanted.sheets.length === 0
      ? [`${count}. Words and numbers are of this coil; no picture is a permission to switch on or to touch.`]
      : [
          `${count}, ${wanted.paper === "a4" ? "A4" : "Letter"}. Print at 100 %, and lay a rule on the check line before anything is drilled.`,
          "No sheet is a permission to switch on.",
        ]),
  ].join("\n")}\n`;
}
