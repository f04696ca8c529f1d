/** The page that answers "why this number?". */
import { quantities } from "../../catalogue/quantities.ts";
import { formatQuantity, formatRange } from "../../units/format.ts";
import type { ExplainedCheck, Explanation, Input } from "../../workbench/explain.ts";
import { amountText } from "./amount.ts";
import { painter } from "./paint.ts";
import { padded, paddedLeft, wrap } from "./wrap.ts";

const labelWidth = 13;
/** Lines of one kind beyond which the rest is only counted. */
const most = 12;

/** A page of 80 columns for one explained figure. */
export function whyText(explanation: Explanation, { width = 80, colour = false } = {}): string {
  const paint = painter(colour);
  const { id, name, value, unit, definition, formula, inputs, source, crossChecks, note } = explanation;
  const group = quantities.get(id)?.group;
  const labelled = (label: string, words: string) =>
    wrap(words, { width, first: padded(label, labelWidth), indent: " ".repeat(labelWidth) });
  const listed = (label: string, lines: readonly string[]) =>
    lines.map((line, index) => `${padded(index === 0 ? label : "", labelWidth)}${line}`.trimEnd()).join("\n");
  const when = source.year === undefined ? "" : ` (${source.year})`;
  const where = source.where === undefined ? "" : `, ${source.where}`;
  return `${[
    `${paint("bold", id)}  ${amountText(value, unit, { digits: quantities.get(id)?.display.digits ?? 4 })}  ${paint("dim", `${group}: ${name}`)}`,
    labelled("what it is", definition),
    labelled("how", formula),
    listed("from", capped(inputs.map(inputLine))),
    labelled("source", `${source.author}${when}: ${source.title}${where}`),
    labelled("", `what is taken from it: ${source.says}`),
    labelled("", source.mark),
    ...crossChecks.map((check, index) => labelled(index === 0 ? "handbook" : "", checkWords(check))),
    ...movesLines(explanation, listed),
    ...doubtLines(explanation, labelled),
    ...(note === undefined ? [] : [labelled("note", note)]),
  ].join("\n")}\n`;
}

function inputLine(input: Input): string {
  if (input.kind === "figure") return `${padded(input.id, 34)} ${input.text}`;
  const origin = input.written ? input.origin : `default, ${input.origin}`;
  // A text that names its own origin need not have it named twice.
  return `${padded(input.path, 34)} ${input.text}${input.text.endsWith(`(${input.origin})`) ? "" : ` (${origin})`}`;
}

const capped = (lines: readonly string[]): readonly string[] =>
  lines.length <= most ? lines : [...lines.slice(0, most - 1), `and ${lines.length - most + 1} more`];

function checkWords({ name, text, disagreement, validity, valid, mark }: ExplainedCheck): string {
  const sign = disagreement < 0 ? "" : "+";
  return `${name}: ${text}, ${sign}${formatQuantity(100 * disagreement, "1", { digits: 2 })} %; ${valid ? "holds here" : "does not hold here"} (${validity}; ${mark})`;
}

function movesLines(
  { sensitivities, byChord }: Explanation,
  listed: (label: string, lines: readonly string[]) => string,
): readonly string[] {
  if (sensitivities.length === 0) return [];
  const lines = sensitivities.map(({ path, percentPerPercent }) => {
    const sign = percentPerPercent < 0 ? "" : "+";
    return `${padded(path, 34)} ${paddedLeft(`${sign}${formatQuantity(percentPerPercent, "1", { digits: 2 })}`, 8)} % per %`;
  });
  const chord = byChord ? ["(of the chord over each number's tolerance: it jumps by half-cycles)"] : [];
  return [listed("moves with", [...capped(lines), ...chord])];
}

function doubtLines(
  { doubt, measure, unit }: Explanation,
  labelled: (label: string, words: string) => string,
): readonly string[] {
  if (doubt === undefined) return [];
  const interval = formatRange(doubt, unit, { digits: 4 });
  const left =
    measure === undefined
      ? "no tolerance in the file adds to it"
      : `knowing ${measure.path} exactly, ${formatQuantity(measure.share, "%", { digits: 2 })} of the variance, would leave ${measure.share > 0.999 ? "nothing open" : formatRange(measure, unit, { digits: 4 })}`;
  return [labelled("how sure", `${interval} (90 %); ${left}`)];
}
