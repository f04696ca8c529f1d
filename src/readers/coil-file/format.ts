/** Canonical spacing of a coil file, and its migration to the newest format. */
import { type Document, visit } from "yaml";
import type { Finding } from "../../catalogue/finding.ts";
import { currentFormat } from "../../description/coil-keys.ts";
import { numberOf } from "../../units/number.ts";
import { writeCanonical } from "./canonical.ts";
import { type Edited, editCoil } from "./edit.ts";
import { sameValues } from "./plain.ts";
import { problem } from "./problem.ts";
import { openSource, type Source } from "./source.ts";
import { nodeAt } from "./tree.ts";

/**
 * The text in canonical spacing: two spaces of indentation, one after a comma, spaces inside braces, quantities as `6.8 nF ± 5 % (datasheet)`.
 * Comments, order, quotes and line breaks between sections are kept. Formatting twice gives the same as once; every value says what it said.
 */
export function formatCoil(text: string): Edited {
  const source = openSource(text);
  if ("refused" in source) return { findings: [source.refused] };
  if (source.syntax.length > 0) return { findings: source.syntax };
  const stray = /[\u2028\u2029]|\r(?!\n)/.exec(text);
  if (stray !== null) {
    return cannotFormat(source, {
      start: stray.index,
      what: "an invisible line break stands here",
      expected: "line feeds, with or without carriage returns",
    });
  }
  // Moving a comment may change how the next pass sees it; this settles after one or two.
  let current = source;
  const alias = danglingAlias(source);
  if (alias !== undefined) {
    return cannotFormat(source, {
      start: alias,
      what: "an alias stands here, and its anchor does not stand before it",
      expected: "the value itself",
    });
  }
  for (let pass = 0; pass < 4; pass++) {
    const next = writeCanonical(current);
    if (next === current.text) return { text: next };
    const again = openSource(next);
    if ("refused" in again || again.syntax.length > 0 || !sameValues(source, again)) break;
    current = again;
  }
  return cannotFormat(source, {
    start: 0,
    what: "the file's layout does not survive formatting",
    expected: "a file of plain maps, lists and values",
  });
}

/** Where an alias stands whose anchor is not there; the writer cannot write it. */
function danglingAlias({ document }: Source): number | undefined {
  let found: number | undefined;
  visit(document, {
    Alias(_key, alias) {
      if (alias.resolve(document) !== undefined) return undefined;
      found = alias.range?.[0] ?? 0;
      return visit.BREAK;
    },
  });
  return found;
}

function cannotFormat(
  source: Source,
  { start, what, expected }: { start: number; what: string; expected: string },
): Edited {
  return {
    findings: [
      problem({
        rule: "cannot-format",
        path: "",
        place: source.place({ path: "", start, end: start + 1 }),
        what,
        expected,
      }),
    ],
  };
}

/** One step of migration: from format `from` to `from + 1`. It changes the text and leaves `coilwright:` to the caller. */
export interface MigrationStep {
  readonly from: number;
  readonly says: string;
  readonly apply: (text: string) => Edited;
}

/** Format 1 is the first; a step for each later one stands here. */
const migrationSteps: readonly MigrationStep[] = [];

export type Migrated =
  | { readonly text: string; readonly from: number; readonly to: number; readonly done: readonly string[] }
  | { readonly findings: readonly Finding[] };

/**
 * Brings a file to the newest format, step by step. A file that is there already comes back as it is.
 *
 * @param steps  one for each format below `to`; the built-in ones if not given
 */
export function migrateCoil(
  text: string,
  { steps = migrationSteps, to = currentFormat }: { steps?: readonly MigrationStep[]; to?: number } = {},
): Migrated {
  const source = openSource(text);
  if ("refused" in source) return { findings: [source.refused] };
  if (source.syntax.length > 0) return { findings: source.syntax };
  const from = formatOf(source.document);
  const refuse = (what: string, expected: string): Migrated => {
    const [start, end] = nodeAt(source.document, ["coilwright"])?.range ?? [0, 1];
    return {
      findings: [
        problem({
          rule: "cannot-migrate",
          path: "coilwright",
          place: source.place({ path: "coilwright", start, end }),
          what,
          expected,
        }),
      ],
    };
  };
  if (from === undefined) return refuse("the file does not say its format", "`coilwright: 1` on the first line");
  if (from > to)
    return refuse(`the file is of format ${from}`, `format ${to} or older; a newer version of the program reads it`);
  let current = text;
  const done: string[] = [];
  for (let at = from; at < to; at++) {
    const step = steps.find((each) => each.from === at);
    if (step === undefined)
      return refuse(`no way leads from format ${at} to ${at + 1}`, "a format that was once published");
    const changed = step.apply(current);
    if ("findings" in changed) return changed;
    const renumbered = renumber(changed.text, at + 1);
    if ("findings" in renumbered) return renumbered;
    current = renumbered.text;
    done.push(step.says);
  }
  return { text: current, from, to, done };
}

function formatOf(document: Document): number | undefined {
  const node = nodeAt(document, ["coilwright"]) as { value?: unknown } | null | undefined;
  const format = typeof node?.value === "string" ? numberOf(node.value) : undefined;
  return format !== undefined && Number.isInteger(format) && format >= 1 ? format : undefined;
}

function renumber(text: string, format: number): Edited {
  return editCoil(text, [{ path: "coilwright", value: String(format) }]);
}
