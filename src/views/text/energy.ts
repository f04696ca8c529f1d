/** Where the energy of one burst goes, as an account that adds up in print. */
import type { Figures } from "../../catalogue/figure.ts";
import { formatParts } from "../../units/format.ts";
import { painter } from "./paint.ts";
import { padded, paddedLeft } from "./wrap.ts";

/** Who gets what a burst keeps, in the order of the account. */
const parts = [
  ["switches", "switches"],
  ["diodes", "diodes"],
  ["bus", "bus capacitors"],
  ["primary", "primary and leads"],
  ["tank", "tank capacitors"],
  ["secondary", "secondary"],
  ["streamer", "streamer"],
  ["stored", "still ringing"],
] as const;

const nameWidth = 24;
const numberWidth = 10;
const shareWidth = 9;
const barWidth = 20;
/** Digits of the greatest number of the account. */
const digits = 4;

/** The account; undefined where no burst was computed. No line is longer than 80 columns. */
export function energyText({ figures, colour = false }: { figures: Figures; colour?: boolean }): string | undefined {
  const paint = painter(colour);
  const drawn = figures.get("burst.energyDrawn")?.value;
  const returned = figures.get("burst.energyReturned")?.value;
  if (drawn === undefined || returned === undefined || !(drawn > 0)) return undefined;
  const spent = parts.map(([part]) => figures.get(`burst.energy.${part}`)?.value ?? 0);
  const { number, unit } = formatParts(drawn, "J", { digits });
  const decimals = number.split(".")[1]?.length ?? 0;
  const perStep = (drawn / Number(number)) * 10 ** -decimals;
  // Drawn less returned is what is kept, also after rounding; and what is kept is what was spent.
  const [drawnSteps, returnedSteps] = [Math.round(drawn / perStep), Math.round(returned / perStep)];
  const kept = drawnSteps - returnedSteps;
  const steps = adding(
    spent.map((value) => value / perStep),
    kept,
  );
  const shown = (count: number) => `${count < 0 ? "−" : ""}${(Math.abs(count) * 10 ** -decimals).toFixed(decimals)}`;
  const share = (count: number, of: number) =>
    of === 0 ? "" : `${((100 * count) / of).toFixed(1)} %`.replace("-", "−");
  const row = (name: string, amount: string, part: string, rest: string) =>
    `  ${padded(name, nameWidth)}${paddedLeft(amount, numberWidth)}${paddedLeft(part, shareWidth)}  ${rest}`.trimEnd();
  return `${[
    `${paint("bold", padded("energy of one burst", nameWidth + 2))}${paddedLeft(unit, numberWidth)}`,
    row("drawn from the bus", shown(drawnSteps), share(drawnSteps, drawnSteps), paint("dim", "burst.energyDrawn")),
    row(
      "given back to it",
      shown(-returnedSteps),
      share(-returnedSteps, drawnSteps),
      paint("dim", "burst.energyReturned"),
    ),
    row("kept", shown(kept), share(kept, drawnSteps), "of it:"),
    ...parts.map(([part, name], index) => {
      const count = steps[index] ?? 0;
      const rest = `${padded(bar(count / kept), barWidth)} ${paint("dim", part)}`;
      return row(`  ${name}`, shown(count), share(count, kept), rest);
    }),
  ].join("\n")}\n`;
}

/** Whole numbers as near to `values` as they can be while they add up to `sum`: the greatest remainders are rounded away from nothing first. */
function adding(values: readonly number[], sum: number): readonly number[] {
  const whole = values.map(Math.floor);
  const left = sum - whole.reduce((total, value) => total + value, 0);
  const order = values
    .map((value, index) => ({ index, remainder: value - Math.floor(value) }))
    .sort((a, b) => b.remainder - a.remainder);
  // A ledger that does not close is a finding of its own; here its difference must not be spread.
  if (left < 0 || left > values.length) return values.map(Math.round);
  for (const { index } of order.slice(0, left)) whole[index] = (whole[index] ?? 0) + 1;
  return whole;
}

const eighths = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"];

function bar(share: number): string {
  const steps = Math.round(8 * barWidth * Math.min(1, Math.max(0, share)));
  return "█".repeat(Math.floor(steps / 8)) + (eighths[steps % 8] ?? "");
}
