/** The page of a match: what the records show, what the fit says beside the drawing, and what explains the difference. */

import { quantities } from "../../catalogue/quantities.ts";
import { formatQuantity } from "../../units/format.ts";
import { captureFigures, sweepPeaks } from "../../workbench/match-capture.ts";
import type { Match, MatchedFigure } from "../../workbench/match-contract.ts";
import { isSeen, matchHeadline, rivalsText, shareText, supportText, worthLooking } from "../match-words.ts";
import { headText } from "./head.ts";
import type { CaptureShown } from "./match-json.ts";
import { painter } from "./paint.ts";
import { cut, padded, paddedLeft, wrap } from "./wrap.ts";

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
    `${headText({ name, fileName, width, paint })}\n${wrap(matchHeadline(match), { width })}`,
    ...captures.map((capture, n) => captureBlock(capture, { state: match.states[n]?.state, paint, width })),
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

function captureBlock(
  capture: CaptureShown,
  { state, paint, width }: { state: string | undefined; paint: ReturnType<typeof painter>; width: number },
): string {
  const { matched, readAs } = capture;
  const said =
    readAs === undefined ? "" : `\n${paint("dim", wrap(`read as: ${readAs}`, { width, first: "  ", indent: "    " }))}`;
  const head = `${paint("bold", capture.name)}${state ? `  ${paint("dim", state)}` : ""}${said}`;
  if (matched && "sweep" in matched) return `${head}\n  ${sweepLine(matched.sweep)}`;
  const figures = matched ? captureFigures(matched.reading) : [];
  const lines = figures.map(({ id, value, low, high, unit }) => {
    const quantity = quantities.get(id);
    const digits = quantity?.display.digits ?? 5;
    return `  ${padded(cut(quantity?.name ?? id, 21), 22)}${paddedLeft(formatQuantity(value, unit, { digits }), 16)}  ${padded(shareText({ value, low, high }), 12)} ${id}`;
  });
  return [head, ...(lines.length > 0 ? lines : ["  nothing could be read"])].join("\n");
}

function sweepLine(sweep: Parameters<typeof sweepPeaks>[0]): string {
  const peaks = sweepPeaks(sweep).map((peak) => formatQuantity(peak, "Hz", { digits: 5 }));
  const found =
    peaks.length === 0 ? "no peak stands out" : `${peaks.length > 1 ? "peaks" : "a peak"} at ${peaks.join(" and ")}`;
  return `a sweep of ${sweep.frequency.length} points: ${found}`;
}

const tableHead = `  ${padded("", 20)}${paddedLeft("drawn", 13)}${paddedLeft("measured", 13)}  ${padded("90 %", 10)} sigmas off`;

function rowOf({ id, drawn, value, low, high, unit, shift, left }: MatchedFigure): string {
  const quantity = quantities.get(id);
  const text = (what: number) => formatQuantity(what, unit, { digits: quantity?.display.digits ?? 4 });
  const beside = !isSeen({ left, shift }) ? paddedLeft("not seen", 13) : paddedLeft(text(value), 13);
  const off = !isSeen({ left, shift }) ? "" : `${shift >= 0 ? "+" : "−"}${Math.abs(shift).toFixed(1)}`;
  return `  ${padded(cut(quantity?.name ?? id, 19), 20)}${paddedLeft(text(drawn), 13)}${beside}  ${padded(shareText({ value, low, high }), 10)} ${off}`.trimEnd();
}

function causesBlock(
  { explanations, rivals }: Match,
  { paint, width }: { paint: ReturnType<typeof painter>; width: number },
): string {
  const worth = worthLooking(explanations);
  if (worth.length === 0)
    return `${paint("bold", "what may explain it")}\n  No single cause does better than the drawing as it is.`;
  const lines = worth.flatMap((each) => [
    wrap(`${each.says} (${supportText(each)})`, { width, first: "  ", indent: "    " }),
    wrap(each.check, { width, first: "      look: ", indent: "      " }),
  ]);
  const unparted = rivals.map((each) => wrap(rivalsText(each), { width, first: "  ", indent: "    " }));
  return [paint("bold", "what may explain it"), ...lines, ...unparted].join("\n");
}

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
