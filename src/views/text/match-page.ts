/** The page of a match: what the records show, what the fit says beside the drawing, and what explains the difference. */
import { quantities } from "../../catalogue/quantities.ts";
import { formatQuantity } from "../../units/format.ts";
import { captureFigures } from "../../workbench/match-capture.ts";
import type { Explanation, Match, MatchedFigure } from "../../workbench/match-contract.ts";
import type { CaptureShown } from "./match-json.ts";
import { painter } from "./paint.ts";
import { cut, padded, paddedLeft, wrap } from "./wrap.ts";

/** Support from which a cause is called likely, and from which it is worth a look. */
const supported = { likely: 6, possible: 1 };
const shownCauses = 5;

export function matchText({
  match,
  captures,
  name,
  fileName,
  width = 80,
  colour = false,
}: {
  match: Match;
  captures: readonly CaptureShown[];
  name: string;
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const paint = painter(colour);
  const blocks = [
    `${paint("bold", name)}  ${paint("dim", fileName)}\n${wrap(headOf(match), { width })}`,
    ...captures.map((capture, n) => captureBlock(capture, match.states[n]?.state, paint)),
    ...(match.matched.length === 0
      ? []
      : [
          [paint("bold", "drawn and measured"), paint("dim", tableHead), ...match.matched.map(rowOf)].join("\n"),
          causesBlock(match, { paint, width }),
        ]),
    ...(match.undetermined.length === 0 ? [] : [openBlock(match, { paint, width })]),
    ...(match.adopt.length === 0 ? [] : [adoptBlock(match, { paint, fileName, width })]),
  ];
  return `${blocks.join("\n\n")}\n`;
}

/** One sentence: does it agree, and if not, what is most likely. */
function headOf({ explanations, taken, observations }: Match): string {
  const [first] = explanations;
  if (observations === 0) return "Nothing in these records can be compared with the drawing.";
  if (taken !== undefined && first) return `The records do not agree with the drawing. Most likely: ${first.says}.`;
  if (first && first.support >= supported.likely)
    return `The records do not agree with the drawing, and more than one cause would explain it. First to look at: ${first.says}.`;
  return "The records agree with the drawing within its tolerances and what the model may be off by.";
}

function captureBlock(capture: CaptureShown, state: string | undefined, paint: ReturnType<typeof painter>): string {
  const { matched } = capture;
  const head = `${paint("bold", capture.name)}${state ? `  ${paint("dim", state)}` : ""}`;
  if (matched && "sweep" in matched) return `${head}\n  a sweep of ${matched.sweep.frequency.length} points`;
  const figures = matched ? captureFigures(matched.reading) : [];
  const lines = figures.map(({ id, value, low, high, unit }) => {
    const quantity = quantities.get(id);
    const digits = quantity?.display.digits ?? 5;
    return `  ${padded(cut(quantity?.name ?? id, 21), 22)}${paddedLeft(formatQuantity(value, unit, { digits }), 16)}  ${padded(halfText({ value, low, high }), 12)} ${id}`;
  });
  return [head, ...(lines.length > 0 ? lines : ["  nothing could be read"])].join("\n");
}

const tableHead = `  ${padded("", 20)}${paddedLeft("drawn", 13)}${paddedLeft("measured", 13)}  ${padded("90 %", 10)} sigmas off`;

/** Part of the drawing's doubt that is left from which a figure was not measured at all. */
const notSeen = 0.97;

function rowOf({ id, drawn, value, low, high, unit, shift, left }: MatchedFigure): string {
  const quantity = quantities.get(id);
  const text = (what: number) => formatQuantity(what, unit, { digits: quantity?.display.digits ?? 4 });
  const beside = left >= notSeen ? paddedLeft("not seen", 13) : paddedLeft(text(value), 13);
  const off = left >= notSeen ? "" : `${shift >= 0 ? "+" : "−"}${Math.abs(shift).toFixed(1)}`;
  return `  ${padded(cut(quantity?.name ?? id, 19), 20)}${paddedLeft(text(drawn), 13)}${beside}  ${padded(halfText({ value, low, high }), 10)} ${off}`.trimEnd();
}

function halfText({ value, low, high }: { value: number; low: number; high: number }): string {
  const part = (100 * (high - low)) / 2 / Math.abs(value);
  return Number.isFinite(part) ? `±${formatQuantity(part, "1", { digits: 2, trim: true })} %` : "";
}

function causesBlock(
  { explanations }: Match,
  { paint, width }: { paint: ReturnType<typeof painter>; width: number },
): string {
  const worth = explanations.filter(({ support }) => support >= supported.possible).slice(0, shownCauses);
  if (worth.length === 0)
    return `${paint("bold", "what may explain it")}\n  No single cause does better than the drawing as it is.`;
  const lines = worth.flatMap((each) => [
    wrap(`${each.says} (${wordOf(each)})`, { width, first: "  ", indent: "    " }),
    wrap(each.check, { width, first: "      look: ", indent: "      " }),
  ]);
  return [paint("bold", "what may explain it"), ...lines].join("\n");
}

const wordOf = ({ support }: Explanation): string =>
  `${support >= supported.likely ? "likely" : "possible"}, ${support.toFixed(1)}`;

/** Numbers that trade with another a line each; those that the records do not see at all in one. */
function openBlock(
  { undetermined }: Match,
  { paint, width }: { paint: ReturnType<typeof painter>; width: number },
): string {
  const trading = undetermined.filter(({ tradesWith }) => tradesWith !== undefined);
  const unseen = undetermined.filter(({ tradesWith }) => tradesWith === undefined).map(({ id }) => id);
  const line = (words: string): string => wrap(words, { width, first: "  ", indent: "    " });
  return [
    paint("bold", "what these records cannot tell"),
    ...trading.map(({ id, because }) => line(`${id}: ${because}`)),
    ...(unseen.length === 0
      ? []
      : [line(`Within their tolerances these hardly change the records; measure them directly: ${unseen.join(", ")}`)]),
  ].join("\n");
}

function adoptBlock(
  { adopt }: Match,
  { paint, fileName, width }: { paint: ReturnType<typeof painter>; fileName: string; width: number },
): string {
  return [
    paint("bold", "to take over"),
    ...adopt.map(({ path, value }) => `  ${path}: ${value}`),
    wrap(`Written into ${fileName} with: --adopt`, { width, first: "  " }),
  ].join("\n");
}
