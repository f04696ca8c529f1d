/** The sheets of a coil, laid out and written off the page's thread. */
import type { JudgedBursts } from "../../findings/judged-bursts.ts";
import {
  type FontFiles,
  type PaperName,
  reasonAgainst,
  type SheetFile,
  type SheetFormat,
  type SheetSubject,
  sheetFiles,
  sheets,
  showDayBlocks,
  svgOf,
} from "../../views/sheets/index.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";

export interface PaperSetting {
  readonly paper: PaperName;
  readonly lengths: "mm" | "in";
  /** ISO date, as it is to be printed. */
  readonly date: string;
}

/** A sheet as the room lists it. */
export interface LaidSheet {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  /** Why it has nothing to show for this coil. */
  readonly without?: string;
  /** What stands between this coil and the sheet, each by name of its hazard. */
  readonly blocks: readonly string[];
  readonly pages: readonly string[];
  readonly formats: readonly SheetFormat[];
}

export interface LaidPapers {
  readonly text: string;
  readonly sheets: readonly LaidSheet[];
  readonly failed?: string;
}

interface PaperQuestion {
  readonly file: CoilFile;
  readonly fileName: string;
  readonly solution: Solution;
  readonly bursts: JudgedBursts;
}

function subjectOf({ file, fileName, solution, bursts }: PaperQuestion): SheetSubject | undefined {
  return file.coil && { file, coil: file.coil, solution, ...bursts, fileName };
}

export function layPapers(question: PaperQuestion, setting: PaperSetting): LaidPapers {
  const subject = subjectOf(question);
  const { text } = question.file;
  if (subject === undefined) return { text, sheets: [], failed: "the file holds no coil that can be read" };
  return {
    text,
    sheets: sheets.map((sheet): LaidSheet => {
      const { id, title, says } = sheet;
      const without = reasonAgainst(sheet, subject);
      if (without !== undefined) {
        const blocks = id === "show-day" ? showDayBlocks(subject).map(({ what }) => what) : [];
        return { id, title, says, without, blocks, pages: [], formats: [] };
      }
      const pages = sheet.lay(subject, setting).map(svgOf);
      const formats: SheetFormat[] = ["pdf", "svg"];
      if (sheet.cut !== undefined) formats.push("dxf");
      if (sheet.table !== undefined) formats.push("csv");
      return { id, title, says, blocks: [], pages, formats };
    }),
  };
}

/** The files of one sheet, or of all that can be laid. */
export async function writePapers(
  question: PaperQuestion,
  wanted: PaperSetting & {
    readonly sheet?: string;
    readonly formats: readonly SheetFormat[];
    readonly fonts: FontFiles;
  },
): Promise<readonly SheetFile[]> {
  const subject = subjectOf(question);
  if (subject === undefined) return [];
  const made: SheetFile[] = [];
  for (const sheet of sheets) {
    if (wanted.sheet !== undefined && sheet.id !== wanted.sheet) continue;
    if (reasonAgainst(sheet, subject) === undefined) made.push(...(await sheetFiles(sheet, subject, wanted)));
  }
  return made;
}
