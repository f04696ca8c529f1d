/** The ledger: every figure of a solution in its block, with its interval where that was asked for, and the id to ask `why` with. */
import type { Figure, Figures } from "../../catalogue/figure.ts";
import { groups, quantities } from "../../catalogue/quantities.ts";
import { formatParts, formatQuantity } from "../../units/format.ts";
import type { Doubt, Doubts } from "../../workbench/doubts.ts";
import { painter } from "./paint.ts";
import { cut, padded, paddedLeft } from "./wrap.ts";

export interface LedgerPage {
  readonly figures: Figures;
  readonly doubts?: Doubts;
  readonly colour?: boolean;
}

const nameWidth = 22;
const numberWidth = 9;
const unitWidth = 6;
const doubtWidth = 11;

/** One line a figure: name, number, unit, half-width of the 90 % interval, id. No line is longer than 80 columns. */
export function ledgerText({ figures, doubts, colour = false }: LedgerPage): string {
  const paint = painter(colour);
  const blocks = groups.flatMap((group) => {
    const lines = [...figures.values()]
      .filter(({ id }) => quantities.get(id)?.group === group)
      .map((figure) => lineOf(figure, doubts?.get(figure.id)))
      .map(({ shown, id }) => `${shown}${paint("dim", id)}`);
    return lines.length === 0 ? [] : [[paint("bold", group), ...lines].join("\n")];
  });
  return `${blocks.join("\n\n")}\n`;
}

function lineOf(figure: Figure, doubt: Doubt | undefined): { shown: string; id: string } {
  const { id, value, unit } = figure;
  const quantity = quantities.get(id);
  const { number, unit: shown } = formatParts(value, unit, { digits: quantity?.display.digits ?? 4 });
  const half =
    doubt ??
    (figure.low === undefined || figure.high === undefined ? undefined : { low: figure.low, high: figure.high });
  return {
    shown: [
      `  ${padded(cut(quantity?.name ?? id, nameWidth - 1), nameWidth)}`,
      paddedLeft(number, numberWidth),
      ` ${padded(shown, unitWidth)}`,
      padded(half ? spreadText({ value, ...half }) : "", doubtWidth),
    ].join(""),
    id,
  };
}

/** The two sides of an interval in per cent of the value: `±1.2 %`, or `−15 +1 %` where they differ much. */
export function spreadText({ value, low, high }: { value: number; low: number; high: number }): string {
  if (value === 0) return "";
  const down = (value - low) / Math.abs(value);
  const up = (high - value) / Math.abs(value);
  const part = (share: number, digits = 2) => formatQuantity(100 * share, "1", { digits, trim: true });
  const [less, more] = [Math.min(down, up), Math.max(down, up)];
  if (more - less <= 0.25 * more) return `±${part(more)} %`;
  // Two sides have to fit where one does: below one per cent one digit is enough.
  const side = (share: number) => part(share, share < 0.01 ? 1 : 2);
  return `−${side(down)} +${side(up)} %`;
}
