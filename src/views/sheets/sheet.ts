/** What a sheet is to the list of sheets: how it is called, when it can be laid, and what it lays. */
import type { Coil } from "../../description/coil.ts";
import type { CoilFile } from "../../description/coil-file.ts";
import type { LengthStyle } from "../../units/format.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import type { Solution } from "../../workbench/contract.ts";
import type { Page } from "./page.ts";
import type { PaperName } from "./paper.ts";
import type { CutDrawing } from "./track.ts";

/** What the sheets are laid from. */
export interface SheetSubject {
  readonly file: CoilFile;
  readonly coil: Coil;
  readonly solution: Solution;
  /** Of the coil at its own setting. */
  readonly study: BurstStudy;
  /** At the limits of its interrupter, where the file has them. */
  readonly atLimits?: BurstStudy;
  /** If the top never broke out. */
  readonly unlit?: BurstStudy;
  /** Inside the limits, beyond these. */
  readonly beyond?: readonly BurstStudy[];
  /** As the person calls it. */
  readonly fileName: string;
}

export interface SheetSetting {
  readonly paper: PaperName;
  readonly lengths: Exclude<LengthStyle, "m">;
  /** As it is to be printed; nothing here reads a clock. */
  readonly date: string;
}

export interface Sheet {
  /** Also the name of its files. */
  readonly id: string;
  readonly title: string;
  readonly says: string;
  /** Ids of figures without which it cannot be laid. */
  readonly needs: readonly string[];
  /** Why it has nothing to show for this coil; undefined where it has. */
  readonly without?: (subject: SheetSubject) => string | undefined;
  readonly lay: (subject: SheetSubject, setting: SheetSetting) => readonly Page[];
  /** Its geometry alone, for machines that cut and etch. */
  readonly cut?: (subject: SheetSubject, setting: SheetSetting) => CutDrawing;
  /** Its table: a row of headings and rows of cells. */
  readonly table?: (subject: SheetSubject, setting: SheetSetting) => readonly (readonly string[])[];
}

/** Why a sheet cannot be laid for this coil; undefined where it can. */
export function reasonAgainst(sheet: Sheet, subject: SheetSubject): string | undefined {
  const missing = sheet.needs.filter((id) => numberOf(subject, id) === undefined);
  if (missing.length > 0) return `the coil file gives no ${missing.join(", ")}`;
  return sheet.without?.(subject);
}

/** Value of a figure of the coil or of its burst. */
export const numberOf = ({ solution, study }: SheetSubject, id: string): number | undefined =>
  (study.figures.get(id) ?? solution.figures.get(id))?.value;
