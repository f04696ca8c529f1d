/** docs/figures.md, made from the catalogue and from one solve that says which source each figure rests on. */
import type { Figures } from "../../src/catalogue/figure.ts";
import { groups, type Quantity, quantities } from "../../src/catalogue/quantities.ts";
import { type Source, sources, standingWords } from "../../src/catalogue/sources.ts";

/** @param figures  of a coil with every section; a figure that it lacks is listed without a source */
export function figuresPage(figures: Figures): string {
  const all = [...quantities.values()];
  const blocks = groups.map((group) => {
    const rows = all.filter((quantity) => quantity.group === group).map((quantity) => figureRow(quantity, figures));
    return rows.length === 0
      ? []
      : [`## ${capital(group)}`, "", ...table(["figure", "unit", "what it is", "how, in words", "source"], rows), ""];
  });
  return `${[
    "# Figures and sources",
    "",
    "<!-- Made from src/catalogue by test/docs/figures.test.ts: npx vitest run test/docs/figures.test.ts --update -->",
    "",
    "Every figure that the program gives, by the id that `--json`, `why` and the library use. Ids, units and meanings stay. Values are in the unit named here, `1`",
    "for counts and ratios; screens and sheets show them with prefixes. What the fields and modes behind them leave out is in [field-solver.md](field-solver.md),",
    "how sure they are in [model.md](model.md). None of them is a permission. The source is left empty where the table coil of these pages has no such figure.",
    "",
    ...blocks.flat(),
    "## Sources",
    "",
    'How far a source may be trusted here is part of it. What is from memory is not quoted as "the standard says"; what is practice has no source at all.',
    "",
    ...table(["key", "seen", "source", "what is taken from it"], [...sources].map(sourceRow)),
  ].join("\n")}\n`;
}

function figureRow({ id, unit, definition, formula }: Quantity, figures: Figures): readonly string[] {
  const source = figures.get(id)?.source;
  return [`\`${id}\``, unit, definition, formula, source === undefined ? "" : `\`${source}\``];
}

function sourceRow([key, { author, title, year, where, standing, says }]: [string, Source]): readonly string[] {
  const place = [year, where].filter((part) => part !== undefined).join(", ");
  return [`\`${key}\``, standingWords[standing], `${author}: ${title}${place === "" ? "" : ` (${place})`}`, says];
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line)];
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
