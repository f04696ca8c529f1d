/** The parts of `docs/coil-file.md` that are made from the keys and the table of tolerances. */
import { keyRows, keyTable } from "../catalogue/key-table.ts";
import type { ToleranceKind } from "../catalogue/keys.ts";
import { type Dimension, dimensions } from "../units/dimension.ts";
import { formatQuantity } from "../units/format.ts";
import { origins } from "../units/quantity.ts";
import { coilKey, coilKeys } from "./coil-keys.ts";
import { defaultTolerances } from "./tolerances.ts";

/** Sections with their tables of keys, in Markdown. */
export function keysInMarkdown(): string {
  const rows = keyRows(coilKey);
  const sections = Object.keys(coilKeys).map((name) => {
    const own = rows.filter(({ path }) => path.split(/[.[]/)[0] === name);
    return `### ${name}\n\n${keyTable(own)}`;
  });
  return sections.join("\n\n");
}

/** The table of default tolerances, in Markdown. */
export function tolerancesInMarkdown(): string {
  const lines = Object.entries(defaultTolerances).map(([kind, row]) => {
    const cells = origins.map((origin) => {
      const { part, floor } = row[origin];
      const shares = [
        part > 0 ? `${Number((part * 100).toPrecision(3))} %` : "",
        floor > 0 ? floorText(kind as ToleranceKind, floor) : "",
      ].filter((text) => text !== "");
      return shares.length === 0 ? "0" : shares.join(" or ");
    });
    return `| ${kind} | ${cells.join(" | ")} |`;
  });
  return [`| kind | ${origins.join(" | ")} |`, "| --- | --- | --- | --- | --- |", ...lines].join("\n");
}

function floorText(kind: ToleranceKind, floor: number): string {
  const dimension: Dimension =
    kind === "wire" || kind === "room" ? "length" : kind === "dissipation" || kind === "none" ? "ratio" : kind;
  return dimension === "temperature"
    ? `${floor} K`
    : formatQuantity(floor, dimensions[dimension].si, { trim: true, digits: 3 });
}
