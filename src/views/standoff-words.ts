/** Words that page and room of stand-off share. */
import { sources, standingWords } from "../catalogue/sources.ts";
import { formatQuantity, formatRange } from "../units/format.ts";
import { waitFor } from "../workbench/keep-off.ts";
import type { Span, StandoffTouch, Store, TouchThreshold } from "../workbench/standoff-contract.ts";

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

const effects = {
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

/** What a store holds, and for how long. */
export function storeWords({ says, energy, charge, voltage, waiting }: Store): string {
  const wait =
    waiting === "none"
      ? "nothing in the file discharges it"
      : `to 60 V in ${waitFor(waiting)} through its bleeders, never with one open`;
  return `${says}: up to ${shown(energy, "J")}, ${shown(charge, "C")} at ${shown(voltage, "V")}; ${wait}.`;
}

/** How deep a current goes in muscle and in copper; nothing where either is not known. */
export function depthWords({ depths }: StandoffTouch): string | undefined {
  const depth = (name: string) => depths.find(({ tissue }) => tissue === name)?.depth;
  const [muscle, copper] = [depth("muscle"), depth("copper")];
  if (muscle === undefined || copper === undefined) return undefined;
  return `The depth of penetration in muscle is ${metres(muscle)}, in copper ${shown(copper, "m", 2)}. A limb is under 0.1 m thick: the current fills it, and the skin effect does not protect.`;
}

export const contactWords = ({ name, density }: StandoffTouch["contacts"][number]): string =>
  `${name}: up to ${shown(density / 10, "1", 2)} mA/cm² inside the burst`;

export const thresholdWords = ({ effect, span: range, verdict }: TouchThreshold): string =>
  range === undefined
    ? `${effects[effect]}: no published threshold`
    : `${effects[effect]} from ${shown(range[0], "A", 2)}: ${verdict}`;
