/** A sheet as files: pages, its bare outline for machines, its table. */
import { csvOf } from "./csv.ts";
import { cutSvg } from "./cut-svg.ts";
import { dxfBeginning, dxfOf } from "./dxf.ts";
import { type FontFiles, pdfBeginning, pdfOf } from "./pdf.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { svgBeginning, svgOf } from "./svg.ts";

export type SheetFormat = "pdf" | "svg" | "dxf" | "csv";

/** A file of a sheet. */
export interface SheetFile {
  readonly name: string;
  readonly content: string | Uint8Array;
  /** How every file of this kind that the house wrote begins: nothing else is written over. */
  readonly beginning: string;
}

/**
 * Every file of a sheet in the formats asked for; a format that the sheet has nothing for gives none.
 *
 * @param subject  one that `reasonAgainst` has no reason against
 */
export async function sheetFiles(
  sheet: Sheet,
  subject: SheetSubject,
  {
    formats,
    fonts,
    ...setting
  }: SheetSetting & { readonly formats: readonly SheetFormat[]; readonly fonts: FontFiles },
): Promise<readonly SheetFile[]> {
  const pages = formats.includes("pdf") || formats.includes("svg") ? sheet.lay(subject, setting) : [];
  const cut = formats.includes("svg") || formats.includes("dxf") ? sheet.cut?.(subject, setting) : undefined;
  const made: SheetFile[] = [];
  if (formats.includes("pdf")) {
    const title = `${subject.coil.name}, ${sheet.title}`;
    const content = await pdfOf(pages, { fonts, title, date: new Date(`${setting.date}T00:00:00Z`) });
    made.push({ name: `${sheet.id}.pdf`, content, beginning: pdfBeginning });
  }
  if (formats.includes("svg")) {
    for (const [n, page] of pages.entries()) {
      const name = pages.length === 1 ? `${sheet.id}.svg` : `${sheet.id}-${n + 1}.svg`;
      made.push({ name, content: svgOf(page), beginning: svgBeginning });
    }
    if (cut) made.push({ name: `${sheet.id}-outline.svg`, content: cutSvg(cut), beginning: svgBeginning });
  }
  if (formats.includes("dxf") && cut) {
    made.push({ name: `${sheet.id}.dxf`, content: dxfOf(cut, setting), beginning: dxfBeginning });
  }
  const rows = formats.includes("csv") ? sheet.table?.(subject, setting) : undefined;
  if (rows) {
    const content = csvOf(rows);
    made.push({ name: `${sheet.id}.csv`, content, beginning: content.slice(0, content.indexOf("\r\n")) });
  }
  return made;
}
