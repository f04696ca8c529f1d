/** What lengths that were seen say of the streamer's constants, in lines of a terminal. */
import { formatQuantity, formatRange } from "../../units/format.ts";
import type { LengthSeen, StreamerMatch } from "../../workbench/match-streamer.ts";
import { painter } from "./paint.ts";
import { padded, paddedLeft, wrap } from "./wrap.ts";

const shown = (value: number, unit: string): string => formatQuantity(value, unit, { digits: 3 });

const bounds: Readonly<Record<LengthSeen["bound"], string>> = {
  energy: "what the energy keeps",
  voltage: "what the voltage holds",
  cold: "cold streamers alone",
  none: "no breakout by the model",
};

/** @param width  columns; no line is longer */
export function streamerMatchText(
  { constants, lengths, adopt }: StreamerMatch,
  { fileName, width = 80, colour = false }: { fileName: string; width?: number; colour?: boolean },
): string {
  const paint = painter(colour);
  return `${[
    paint("bold", "streamer, from lengths that were seen"),
    paint("dim", `  ${paddedLeft("seen", 11)}${paddedLeft("table", 12)}${paddedLeft("fitted", 12)}  limited by`),
    ...lengths.map(
      ({ observed, drawn, fitted, bound }) =>
        `  ${paddedLeft(shown(observed, "m"), 11)}${paddedLeft(shown(drawn, "m"), 12)}${paddedLeft(shown(fitted, "m"), 12)}  ${bounds[bound]}`,
    ),
    "",
    ...constants.flatMap(({ id, says, unit, drawn, value, low, high, left }) => [
      `  ${padded(`streamer.${id}`, 26)}${
        left < 0.9
          ? `${shown(value, unit)}, 90 % between ${formatRange({ low, high }, unit, { digits: 2 })}`
          : `not told; the table's ${shown(drawn, unit)} stays`
      }`,
      wrap(says, { width, first: "      ", indent: "      " }),
    ]),
    wrap(
      adopt.length === 0
        ? "These lengths tell none of the constants better than the table does."
        : `With --adopt they go into ${fileName} under streamer, and the burst uses them.`,
      { width, first: "  " },
    ),
  ].join("\n")}\n`;
}
