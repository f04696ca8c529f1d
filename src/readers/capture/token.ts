/** One cell of a row as a text: the exact and slow way, for the cells that the row parser does not take. */
import type { Decimal, Delimiter } from "./dialect.ts";

export type Token =
  /** `grouped`: its thousands are set apart. `clock`: seconds of the day. */
  | { readonly kind: "number"; readonly value: number; readonly grouped?: true; readonly clock?: true }
  /** No number was recorded here. */
  | { readonly kind: "missing" }
  /** Over the instrument's range; sign 0 where the token does not say to which side. */
  | { readonly kind: "over"; readonly sign: -1 | 0 | 1 }
  | { readonly kind: "text" };

const patterns: Readonly<Record<Decimal, RegExp>> = {
  ".": /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d+)?$/,
  ",": /^[+-]?(?:\d+,?\d*|,\d+)(?:[eEdD][+-]?\d+)?$/,
};
/** `1,234.5`, `1'234.5`, `1 234.5`: groups of three digits behind one to three that begin with no zero. */
const groups: Readonly<Record<Decimal, RegExp>> = {
  ".": /^[+-]?[1-9]\d{0,2}([,'’ \u00a0\u2009\u202f])\d{3}(?:\1\d{3})*(?:\.\d*)?$/,
  ",": /^[+-]?[1-9]\d{0,2}([.'’ \u00a0\u2009\u202f])\d{3}(?:\1\d{3})*(?:,\d*)?$/,
};
/** `0x7F`, `$7F`, `7Fh`: a code of a converter. */
const hexadecimal = /^(?:0x|\$)([0-9a-f]{1,8})$|^([0-9][0-9a-f]{0,7})h$/i;
const missing = /^[+-]?(?:nan(?:\(.*\))?|1[.,]#(?:qnan|snan|ind)0*|null|none|n\/?a|#n\/?a|#num!|#value!|-{1,4}|\?+)$/i;
const over =
  /^([+-])?(?:inf(?:inity|inite)?|∞|1[.,]#inf0*|over(?:flow|range|load|flw)?|ovld?|o\.?l\.?|ovrng|\*+|>+|clip(?:ped)?|#+)$/i;
const under = /^(?:under(?:flow|range)?|<+)$/i;

/** What a cell says. Quotes and outer spaces must be off. */
export function tokenOf(text: string, decimal: Decimal): Token {
  if (text === "") return { kind: "missing" };
  const plain = text.replace("\u2212", "-");
  const sided = over.exec(plain);
  if (sided !== null) return { kind: "over", sign: sided[1] === "-" ? -1 : sided[1] === "+" ? 1 : 0 };
  if (patterns[decimal].test(plain)) {
    const value = Number(plain.replace(",", ".").replace(/[dD]/, "e"));
    // A number beyond double precision is one that the instrument did not measure.
    return Number.isFinite(value) ? { kind: "number", value } : { kind: "over", sign: value < 0 ? -1 : 1 };
  }
  const group = groups[decimal].exec(plain)?.[1];
  if (group !== undefined)
    return { kind: "number", value: Number(plain.replaceAll(group, "").replace(",", ".")), grouped: true };
  const digits = hexadecimal.exec(plain);
  if (digits !== null) return { kind: "number", value: Number.parseInt(digits[1] ?? digits[2] ?? "", 16) };
  if (missing.test(plain)) return { kind: "missing" };
  if (under.test(plain)) return { kind: "over", sign: -1 };
  return { kind: "text" };
}

export interface Cell {
  /** Without quotes and outer spaces. */
  readonly text: string;
  readonly quoted: boolean;
  /** Of the cell's first character, from 1. */
  readonly column: number;
}

/** The cells of one line. Spaces as delimiter count once however many they are; a delimiter inside quotes is none. */
export function cellsOf(line: string, delimiter: Delimiter): readonly Cell[] {
  const cells: Cell[] = [];
  const end = line.length;
  let at = 0;
  const skipBlank = () => {
    while (at < end && (line[at] === " " || (line[at] === "\t" && delimiter !== "\t"))) at++;
  };
  for (;;) {
    skipBlank();
    if (delimiter === " " && at >= end && cells.length > 0) return cells;
    const column = at + 1;
    if (line[at] === '"') {
      const close = line.indexOf('"', at + 1);
      const stop = close === -1 ? end : close;
      cells.push({ text: line.slice(at + 1, stop).trim(), quoted: true, column });
      at = stop + 1;
      // What follows a closing quote up to the delimiter belongs to no cell.
      while (at < end && line[at] !== delimiter) at++;
    } else {
      const next = delimiter === " " ? nextBlank(line, at) : line.indexOf(delimiter, at);
      const stop = next === -1 ? end : next;
      cells.push({ text: line.slice(at, stop).trim(), quoted: false, column });
      at = stop;
    }
    if (at >= end) return cells;
    at++;
  }
}

function nextBlank(line: string, from: number): number {
  for (let at = from; at < line.length; at++) if (line[at] === " " || line[at] === "\t") return at;
  return -1;
}
