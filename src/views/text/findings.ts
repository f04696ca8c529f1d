/** Findings as a compiler prints them: place, line, what, expected, and what to do about it. */
import type { Finding, Severity } from "../../catalogue/finding.ts";
import { sources, standingWords } from "../../catalogue/sources.ts";
import { type Paint, painter } from "./paint.ts";
import { columns, cut, wrap } from "./wrap.ts";

export interface FindingsPage {
  readonly findings: readonly Finding[];
  /** Of the coil file, for the lines that are quoted. */
  readonly text: string;
  /** As the person called it. */
  readonly fileName: string;
  /** Of what file they are; the coil's where absent. */
  readonly of?: "coil" | "song";
  readonly width?: number;
  readonly colour?: boolean;
}

const labelWidth = 11;

/**
 * All findings, one block each, and a line that counts them.
 *
 *   lantern.yaml:12:10  fix  winding-nearly-full
 *      12 |   turns: 1190
 *         |          ^^^^ 1190 turns of 0.352 mm wire fill 99.7 % of the winding; …
 *     expected …
 *     you can  1) …
 */
export function findingsText({
  findings,
  text,
  fileName,
  of = "coil",
  width = 80,
  colour = false,
}: FindingsPage): string {
  const paint = painter(colour);
  const lines = text.split(/\r\n|\r|\n/);
  const numbers = remedyNumbers(findings);
  const blocks = findings.map((finding, index) =>
    blockOf(finding, { lines, fileName, width, paint, firstRemedy: numbers[index] ?? 1 }),
  );
  return `${[...blocks, summary(findings, { of, paint })].join("\n\n")}\n`;
}

/**
 * The number of each finding's first remedy. Remedies count on through all findings of one rule, so that `RULE.N` names one of them.
 */
export function remedyNumbers(findings: readonly Finding[]): readonly number[] {
  const counted = new Map<string, number>();
  return findings.map(({ rule, remedies }) => {
    const before = counted.get(rule) ?? 0;
    counted.set(rule, before + remedies.length);
    return before + 1;
  });
}

function blockOf(
  finding: Finding,
  {
    lines,
    fileName,
    width,
    paint,
    firstRemedy,
  }: { lines: readonly string[]; fileName: string; width: number; paint: Paint; firstRemedy: number },
): string {
  const { rule, severity, place, path, what, expected, source, remedies } = finding;
  const where = !place
    ? `${fileName}: ${path}`
    : place.byte === undefined
      ? `${fileName}:${place.line}:${place.column}`
      : `${fileName}: byte ${place.byte}`;
  const written = place && lines[place.line - 1];
  const labelled = (label: string, words: string) =>
    wrap(words, { width, first: `  ${label.padEnd(labelWidth)}`, indent: " ".repeat(labelWidth + 2) });
  return [
    `${paint("bold", where)}  ${paint(severity, severity)}  ${rule}`,
    place && written !== undefined
      ? quoted(what, { line: place.line, column: place.column, length: place.length, written, width, paint, severity })
      : labelled("found", what),
    ...(expected === undefined ? [] : [labelled("expected", expected)]),
    ...remedies.map((remedy, index) =>
      wrap(`${firstRemedy + index}) ${remedy.says}`, {
        width,
        first: `  ${(index === 0 ? "you can" : "").padEnd(labelWidth)}`,
        indent: " ".repeat(labelWidth + 5),
      }),
    ),
    ...applying(finding, { fileName, firstRemedy }),
    ...(source === undefined ? [] : [paint("dim", labelled("rests on", sourceWords(source)))]),
  ].join("\n");
}

/** The line of the file with the place marked under it, and what was found beside or below the mark. */
function quoted(
  what: string,
  {
    line,
    column,
    length,
    written,
    width,
    paint,
    severity,
  }: {
    line: number;
    column: number;
    length: number;
    written: string;
    width: number;
    paint: Paint;
    severity: Severity;
  },
): string {
  const margin = `${String(line).padStart(5)} | `;
  const blank = `${" ".repeat(5)} | `;
  const room = width - margin.length;
  // A tab is one column of the file and must be one column here, or the mark points beside it.
  const flat = [...written.replaceAll("\t", " ")];
  const from = column - 1 > room - 12 ? Math.max(0, column - 1 - Math.floor(room / 2)) : 0;
  const shown = `${from > 0 ? "…" : ""}${flat.slice(from + (from > 0 ? 1 : 0)).join("")}`;
  const start = column - 1 - from;
  const mark = "^".repeat(Math.max(1, Math.min(length, flat.length - (column - 1), room - start)));
  const head = `${blank}${" ".repeat(start)}`;
  const beside = width - columns(head) - mark.length - 1 >= 36;
  const first = beside ? `${head}${mark} ` : blank;
  const words = wrap(what, { width, first, indent: beside ? blank + " ".repeat(start + mark.length + 1) : blank });
  return [
    `${margin}${cut(shown, room)}`,
    beside ? words.replace(mark, paint(severity, mark)) : `${head}${paint(severity, mark)}\n${words}`,
  ].join("\n");
}

/** How the first remedy that needs no hands is applied. */
function applying(
  { rule, remedies }: Finding,
  { fileName, firstRemedy }: { fileName: string; firstRemedy: number },
): readonly string[] {
  const ready = remedies.findIndex(({ edits }) => edits.length > 0);
  if (ready < 0) return [];
  return [
    `  ${"apply with".padEnd(labelWidth)}coilwright check ${shellWord(fileName)} --apply ${rule}.${firstRemedy + ready}`,
  ];
}

/** A file name as a shell takes it back: quoted where it holds more than plain characters. */
export const shellWord = (name: string): string =>
  /^[\w@%+=:,./-]+$/.test(name) ? name : `'${name.replaceAll("'", "'\\''")}'`;

function sourceWords(key: string): string {
  const source = sources.get(key);
  if (source === undefined) return key;
  if (source.standing === "practice") return standingWords.practice;
  return `${source.author}${source.year === undefined ? "" : ` ${source.year}`} (${standingWords[source.standing]})`;
}

const counts: readonly (readonly [Severity, string])[] = [
  ["stop", "to stop for: do not switch on"],
  ["fix", "to fix: it will not work or not last"],
  ["look", "worth a second look"],
];

/** A song that cannot be read stops no coil. */
const songCounts = counts.map(
  ([severity, words]) => [severity, severity === "stop" ? "to mend before it can be played" : words] as const,
);

function summary(findings: readonly Finding[], { of, paint }: { of: "coil" | "song"; paint: Paint }): string {
  const said = (of === "song" ? songCounts : counts).flatMap(([severity, words]) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [paint(severity, `${count} ${words}`)];
  });
  return said.length > 0
    ? said.join("\n")
    : "No rule has anything to say about this coil. That is no permission to switch it on.";
}
