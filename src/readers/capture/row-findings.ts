/** What the rows of a CSV say of themselves: each kind of trouble once, counted, with the place where it was first met. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Body } from "./body.ts";
import { GrowingSamples } from "./growing.ts";
import { counted, trouble } from "./problems.ts";
import type { RowTrouble } from "./rows.ts";

/** Severity and words of each kind of trouble in the rows. */
const words: Readonly<
  Record<
    RowTrouble,
    (count: number, token: string) => { what: string; expected: string; remedies?: readonly string[]; stop?: true }
  >
> = {
  "not-a-number": (count, token) => ({
    what: `${counted(count, "cell is not a number", "cells are not numbers")}, the first is \`${token}\`; ${count === 1 ? "it is" : "they are"} kept as gaps`,
    remedies: ["set the decimal sign, where it was guessed wrongly", "mend or delete what stands there"],
    expected: "a number, or a word for a value over the range (`inf`, `OVER`, `****`)",
  }),
  "text-line": (count, token) => ({
    what: `${counted(count, "line")} of text between the rows, the first \`${token}\`; left out`,
    expected: "rows of numbers without lines of text between them: a second record belongs into a file of its own",
    remedies: ["save each record to a file of its own", "delete the lines"],
  }),
  "short-row": (count) => ({
    what: `${counted(count, "row lacks a cell", "rows lack cells")}, the first here; ${count === 1 ? "it is" : "they are"} kept as gaps`,
    expected: "the same number of cells in every row",
    remedies: ["export the record once more, or mend the row"],
  }),
  "long-row": (count) => ({
    what: `${counted(count, "row has", "rows have")} more cells than the others, the first here; the rest is left out`,
    expected: "the same number of cells in every row",
    remedies: ["export the record once more, or mend the row"],
  }),
  "over-range": (count, token) => ({
    what: `${counted(count, "value is", "values are")} over the instrument's range, the first \`${token}\``,
    expected: "a vertical scale on which the whole signal fits",
    remedies: ["take the record again with a coarser vertical scale"],
  }),
  missing: (count, token) => ({
    what: `${counted(count, "value is", "values are")} missing${token === "" ? "" : `, the first \`${token}\``}`,
    expected: "a number in every cell",
    remedies: ["export the record once more; gaps are left out of every figure"],
  }),
  "row-without-time": (count) => ({
    what: `${counted(count, "row has", "rows have")} no time, the first here; left out`,
    expected: "a time in every row, or a sample interval in the header",
    remedies: ["give the sample interval: the time column is not used then"],
  }),
  "last-line-cut": (_, token) => ({
    what: `the last line, \`${token}\`, is cut off; it is left out`,
    expected: "a whole row: the file may have been cut while it was copied",
    remedies: ["copy or export the record once more"],
  }),
  "line-too-long": () => ({
    what: "this line has more than a million characters",
    expected: "one row on each line",
    remedies: ["export the record once more, with a row on each line"],
    stop: true,
  }),
};

/** @param textExplained  the text between rows is the header of further channels: it is no trouble */
export function rowFindings(
  { rows, columns, dialect }: Body,
  { textExplained = false }: { textExplained?: boolean } = {},
): readonly Finding[] {
  const findings: Finding[] = [];
  for (const kind of Object.keys(words) as RowTrouble[]) {
    const met = rows.tally.get(kind);
    if (met === undefined || (textExplained && kind === "text-line")) continue;
    const { what, expected, remedies = [], stop } = words[kind](met.count, met.token);
    findings.push(
      trouble({
        rule: `capture-${kind}`,
        severity: stop ? "stop" : "look",
        line: met.line,
        column: met.column,
        length: Math.max(1, met.token.length),
        what,
        expected,
        remedies,
      }),
    );
  }
  const channels = columns.filter((column) => column instanceof GrowingSamples);
  const marked = channels.reduce((sum, channel) => sum + channel.marked, 0);
  if (marked > 0)
    findings.push(
      trouble({
        rule: "capture-over-range",
        severity: "look",
        what: `${counted(marked, "value is", "values are")} 9.9E37 or thereabouts: the instrument's mark for a value over its range`,
        expected: "a vertical scale on which the whole signal fits",
      }),
    );
  const broken = channels.reduce((sum, channel) => sum + channel.broken, 0);
  if (broken > 0)
    findings.push(
      trouble({
        rule: "capture-codes-doubtful",
        severity: "fix",
        what: `${counted(broken, "value is", "values are")} no whole number, though the samples were taken as codes of a converter`,
        expected: "whole numbers throughout, or samples that are scaled already",
        remedies: ["say that the samples are no codes"],
      }),
    );
  const trailing = rows.trailing();
  if (trailing !== undefined)
    findings.push(
      trouble({
        rule: "capture-text-after-rows",
        severity: "look",
        line: trailing.line,
        length: Math.max(1, trailing.token.length),
        what: `${counted(trailing.count, "line")} of text after the last row, the first \`${trailing.token.slice(0, 40)}\`; left out`,
        expected: "rows of numbers up to the end of the file",
      }),
    );
  if (dialect.rowsAnnounced !== undefined && dialect.rowsAnnounced > rows.rows)
    findings.push(
      trouble({
        rule: "capture-shorter-than-announced",
        severity: "look",
        what: `the header announces ${dialect.rowsAnnounced} rows, the file has ${rows.rows}`,
        expected: "the whole record: it may have been cut while it was copied",
      }),
    );
  return findings;
}
