/** Words that page and room of stand-off share. */
import { sources, standingWords } from "../catalogue/sources.ts";
import { formatQuantity, formatRange } from "../units/format.ts";
import type { Span } from "../workbench/standoff-contract.ts";

export const metres = (value: number): string => formatQuantity(value, "m", { digits: 2, lengths: "m", trim: true });
export const shown = (value: number, unit: string, digits = 3): string =>
  formatQuantity(value, unit, { digits, trim: true });
export const span = ({ low, high }: Span, unit: string): string => formatRange({ low, high }, unit, { digits: 2 });

/** How far a source may be trusted. */
export function mark(source: string): string {
  const found = sources.get(source);
  return found === undefined ? source : standingWords[found.standing];
}

export const who = { public: "public", occupational: "at work" } as const;

export const effects = {
  perception: "felt",
  pain: "pain",
  letGo: "let-go",
  breathing: "breathing",
  fibrillation: "fibrillation",
} as const;

/** A time in the words of a day. */
export function timeText(seconds: number): string {
  if (seconds >= 86400) return "more than a day";
  if (seconds >= 7200) return `${shown(seconds / 3600, "1", 2)} h`;
  return seconds >= 120 ? `${shown(seconds / 60, "1", 2)} min` : shown(seconds, "s", 2);
}
