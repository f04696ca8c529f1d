export { type SheetFile, type SheetFormat, sheetFiles } from "./files.ts";
export type { Page, TextItem } from "./page.ts";
export { type PaperName, papers } from "./paper.ts";
export type { FontFiles } from "./pdf.ts";
export { reasonAgainst, type Sheet, type SheetSetting, type SheetSubject } from "./sheet.ts";
export { sheets } from "./sheet-list.ts";
export { showDayBlocks } from "./show-day-sheet.ts";
export { svgOf } from "./svg.ts";
