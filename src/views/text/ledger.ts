/** The ledger: every figure of a solution in its block, with its interval where that was asked for, and the id to ask `why` with. */
import type { Figure, Figures } from "../../catalogue/figure.ts";
import { groups, quantities } from "../../catalogue/quantities.ts";
import { formatQuantity } from "../../units/format.ts";
import type { Doubt, Doubts } from "../../workbench/doubts.ts";
import { amountParts } from "./amount.ts";
import { painter } from "./paint.ts";
import { columns, cut, padded, paddedLeft } from "./wrap.ts";

export interface LedgerPage {
  readonly figures: Figures;
  readonly doubts?: Doubts;
  readonly colour?: boolean;
}

const widest = 80;
/** Names get what the longest id of the page leaves them. */
const nameWidths = { least: 22, most: 28 };
const numberWidth = 9;
const unitWidth = 6;
const doubtWidth = 11;
const besideName = 2 + numberWidth + 1 + unitWidth + doubtWidth;

/** One line a figure: name, number, unit, half-width of the 90 % interval, id. No line is longer than 80 columns. */
export function ledgerText({ figures, doubts, colour = false }: LedgerPage): string {
  const paint = painter(colour);
  const nameWidth = nameWidthFor([...figures.keys()]);
  const blocks = groups.flatMap((group) => {
    const lines = [...figures.values()]
      .filter(({ id }) => quantities.get(id)?.group === group)
      .map((figure) => lineOf(figure, doubts?.get(figure.id), nameWidth))
      .map(({ shown, id }) => {
        // An id too long for its column stands below, where it can still be copied whole.
        const fits = columns(shown) + columns(id) <= widest;
        return fits
          ? `${shown}${paint("dim", id)}`
          : `${shown.trimEnd()}\n${paddedLeft("", widest - columns(id))}${paint("dim", id)}`;
      });
    return lines.length === 0 ? [] : [[paint("bold", group), ...lines].join("\n")];
  });
  return `${blocks.join("\n\n")}\n`;
}

/** As wide as the longest name needs, as long as every id that fits its column at all still does. */
function nameWidthFor(ids: readonly string[]): number {
  const named = Math.max(0, ...ids.map((id) => columns(quantities.get(id)?.name ?? id))) + 1;
  const room = widest - besideName;
  const longest = Math.max(0, ...ids.map(columns).filter((length) => length <= room - nameWidths.least));
  return Math.max(nameWidths.least, Math.min(named, room - longest, nameWidths.most));
}

function lineOf(figure: Figure, doubt: Doubt | undefined, nameWidth: number): { shown: string; id: string } {
  const { id, value, unit } = figure;
  const quantity = quantities.get(id);
  const { number, unit: shown } = amountParts(value, unit, {
    digits: quantity?.display.digits ?? 4,
    // A count is a whole number.
    trim: unit === "1" && Number.isInteger(value),
  });
  const half =
    doubt ??
    (figure.low === undefined || figure.high === undefined ? undefined : { low: figure.low, high: figure.high });
  return {
    shown: [
      `  ${padded(cut(quantity?.name ?? id, nameWidth - 1), nameWidth)}`,
      paddedLeft(number, numberWidth),
      ` ${padded(shown, unitWidth)}`,
      padded(half ? spreadText({ value, ...half, unit }) : "", doubtWidth),
    ].join(""),
    id,
  };
}

/** The two sides of an interval in per cent of the value: `±1.2 %`, or `−15 +1 %` where they differ much; of a temperature in kelvins. */
export function spreadText({
  value,
  low,
  high,
  unit,
}: {
  value: number;
  low: number;
  high: number;
  unit?: string;
}): string {
  if (unit === "°C") return kelvins({ value, low, high });
  if (value === 0) return "";
  const down = (value - low) / Math.abs(value);
  const up = (high - value) / Math.abs(value);
  // More than tenfold is no longer a matter of per cent.
  if (up > 9.95) return `to ×${formatQuantity(1 + up, "1", { digits: 2, trim: true })}`;
  const part = (share: number, digits = 2) => formatQuantity(100 * share, "1", { digits, trim: true });
  const [less, more] = [Math.min(down, up), Math.max(down, up)];
  if (more - less <= 0.25 * more) return `±${part(more)} %`;
  // Two sides have to fit where one does: below one per cent one digit is enough.
  const side = (share: number) => part(share, share < 0.01 ? 1 : 2);
  const both = `−${side(down)} +${side(up)} %`;
  // A gap to the id is worth more than a decimal.
  const whole = (share: number) => String(Math.round(100 * share));
  return columns(both) < doubtWidth ? both : `−${whole(down)} +${whole(up)} %`;
}

/** Of a temperature the greater side: two would not fit, and the smaller says less. */
function kelvins({ value, low, high }: { value: number; low: number; high: number }): string {
  const side = Math.max(value - low, high - value);
  return side > 0 ? `±${formatQuantity(side, "1", { digits: 2, trim: true })} K` : "";
}
