/** Reads a page of the documentation as a test wants it: its tables, and the numbers in their cells. */
import { readFileSync } from "node:fs";

export const pageOf = (name: string): string => readFileSync(new URL(`../../docs/${name}`, import.meta.url), "utf8");

/**
 * Rows of the table whose head begins with these cells, without the head.
 * @throws Error the page has no such table, so that a table that was renamed cannot pass by being absent
 */
export function tableOf(page: string, ...head: readonly string[]): readonly (readonly string[])[] {
  const lines = page.split("\n");
  const at = lines.findIndex((line) => head.every((cell, i) => cellsOf(line)[i] === cell));
  if (at < 0) throw new Error(`no table begins with ${head.join(" | ")}`);
  const rows: (readonly string[])[] = [];
  for (let i = at + 2; lines[i]?.startsWith("|"); i++) rows.push(cellsOf(lines[i]!));
  return rows;
}

const cellsOf = (line: string): readonly string[] =>
  line.startsWith("|")
    ? line
        .slice(1, -1)
        .split("|")
        .map((cell) => cell.trim())
    : [];

/** The number that a cell begins with: `−23 %` → −23, `4e-6` → 4e-6. */
export function numberIn(cell: string): number {
  const found = /^[+−-]?\d+(?:\.\d+)?(?:e[−-]?\d+)?/.exec(cell);
  if (!found) throw new Error(`no number in ${cell}`);
  return Number(found[0].replaceAll("−", "-"));
}

/** The id or path between back-ticks. */
export const codeIn = (cell: string): string => cell.replaceAll("`", "");
