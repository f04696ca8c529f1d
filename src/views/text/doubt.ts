/** The page that answers "how sure is this?": each figure's interval, and what to measure first. */
import { quantities } from "../../catalogue/quantities.ts";
import { formatQuantity, formatRange } from "../../units/format.ts";
import type { Doubt, Doubts } from "../../workbench/doubts.ts";
import { spreadText } from "./ledger.ts";
import { painter } from "./paint.ts";
import { columns, padded, paddedLeft, wrap } from "./wrap.ts";

const shareWidth = 8;
const idColumn = 29;
/** Lines for one figure beyond which the rest is only counted. */
const most = 12;

/** One line a figure: half-width of the 90 % interval, and the number of the file that adds most to it with its part of the variance. */
export function doubtsText(doubts: Doubts, { colour = false } = {}): string {
  const paint = painter(colour);
  const idWidth = 1 + Math.max(idColumn, ...[...doubts.keys()].map(columns));
  const lines = [...doubts.values()].map((doubt) => {
    const worst = doubt.contributions[0];
    const cause =
      worst === undefined || worst.share < 0.01
        ? `${" ".repeat(shareWidth)}the model itself`
        : `${padded(formatQuantity(worst.share, "%", { digits: 2 }), shareWidth)}${worst.path}`;
    return `${padded(doubt.id, idWidth)}${padded(spreadText(doubt), 12)}${paint("dim", cause)}`;
  });
  const head = `${padded("figure", idWidth)}${padded("90 %", 12)}greatest part of the variance`;
  return `${paint("bold", head)}\n${lines.join("\n")}\n`;
}

/** What adds to the doubt of one figure, greatest first. */
export function doubtText(doubt: Doubt, { colour = false, width = 80 } = {}): string {
  const paint = painter(colour);
  const { id, value, unit, contributions, model } = doubt;
  const digits = quantities.get(id)?.display.digits ?? 4;
  const half = (size: number) => `±${formatQuantity(size, unit, { digits: 2 })}`;
  const lines = [
    ...contributions.map(({ path, halfWidth, share }) => ({ path, halfWidth, share })),
    { path: "the model itself", halfWidth: model, share: 1 - contributions.reduce((sum, { share }) => sum + share, 0) },
  ].sort((a, b) => b.share - a.share);
  const shown = lines.slice(0, most);
  const rest = lines.slice(most);
  const left = rest.reduce((sum, { share }) => sum + share, 0);
  const first = contributions[0];
  return `${[
    `${paint("bold", id)}  ${formatQuantity(value, unit, { digits })}  90 % within ${formatRange(doubt, unit, { digits })}`,
    ...shown.map(
      ({ path, halfWidth, share }) =>
        `  ${padded(path, 38)}${paddedLeft(half(halfWidth), 14)}${paddedLeft(formatQuantity(share, "%", { digits: 2 }), 8)} of the variance`,
    ),
    ...(rest.length === 0
      ? []
      : [`  and ${rest.length} more, with ${formatQuantity(left, "%", { digits: 1 })} of the variance together`]),
    ...(first === undefined ? [] : [wrap(`Measuring ${first.path} would shrink it most.`, { width })]),
  ].join("\n")}\n`;
}
