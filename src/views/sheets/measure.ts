/** How wide words are in the sheets' fonts, and how they are broken into lines. */
import type { Metre } from "../../units/si.ts";
import { drawnSigns } from "./drawn-signs.ts";
import { boldWidths, regularWidths, unitsPerEm } from "./font-widths.ts";
import type { Face } from "./page.ts";

const widthsOf = (table: typeof regularWidths): ReadonlyMap<string, number> =>
  new Map(table.flatMap(([advance, characters]) => [...characters].map((one) => [one, advance / unitsPerEm] as const)));

const advances: Readonly<Record<Face, ReadonlyMap<string, number>>> = {
  regular: widthsOf(regularWidths),
  bold: widthsOf(boldWidths),
};

/** From the base line to the upper edge of a line of type, over the size of the letters. */
export const ascent = 0.965;

/** Spaces of every width are set as the plain one. */
const anySpace = /[\u00a0\u2000-\u200a\u202f\u205f]/g;

/** Signs that look alike or are rare, as the sheets set them. */
const instead: Readonly<Record<string, string>> = {
  "\u2126": "Ω",
  "\u2010": "-",
  "\u2011": "-",
  "\u03bc": "µ",
  "⁴": "^4",
  "⁻": "−",
};

/** The words as the sheets can set them: any character that no font of theirs has becomes a question mark. */
export function settable(text: string): string {
  return [...text.normalize("NFC").replace(anySpace, "\u00a0")]
    .map((one) => instead[one] ?? one)
    .map((one) => (hasSign(one) ? one : "?"))
    .join("");
}

const hasSign = (one: string) => [...one].every((c) => advances.regular.has(c) || c in drawnSigns);

/** Advance of one character over the size. */
export const advanceOf = (character: string, face: Face): number =>
  advances[face].get(character) ?? (drawnSigns[character]?.advance ?? 0) / 1000;

/** Width of words on one line. */
export function widthOf(text: string, { size, face }: { size: Metre; face: Face }): Metre {
  let sum = 0;
  for (const character of settable(text)) sum += advanceOf(character, face);
  return sum * size;
}

/** A unit, with what a sentence may put behind it: it stays with the number before it. */
const unit = /^(?:[pnµmkMG]?(?:s|V|A|W|J|Hz|m|F|H|Ω|T|C)|in|ft|g|kg|oz|lb|%|°C|K|mm²|V\/µs|A²s|K\/W)[.,;:)]*$/;

function wordsOf(text: string): readonly string[] {
  const words: string[] = [];
  for (const word of text.split(" ")) {
    const before = words.at(-1);
    if (before !== undefined && /\d$/.test(before) && unit.test(word))
      words[words.length - 1] = `${before}\u00a0${word}`;
    else words.push(word);
  }
  return words;
}

/** Lines no wider than `width`; a word that is wider alone is broken. */
export function wrapped(
  text: string,
  { width, size, face }: { width: Metre; size: Metre; face: Face },
): readonly string[] {
  const fits = (line: string) => widthOf(line, { size, face }) <= width * (1 + 1e-9);
  const lines: string[] = [];
  let line = "";
  for (const word of wordsOf(settable(text))) {
    const joined = line === "" ? word : `${line} ${word}`;
    if (fits(joined)) {
      line = joined;
      continue;
    }
    if (line !== "") lines.push(line);
    line = word;
    while (!fits(line) && [...line].length > 1) {
      const characters = [...line];
      let count = characters.length - 1;
      while (count > 1 && !fits(characters.slice(0, count).join(""))) count--;
      lines.push(characters.slice(0, count).join(""));
      line = characters.slice(count).join("");
    }
  }
  return [...lines, line];
}

/**
 * The size at which words fit one line, between `least` and `size`; and the words, cut with a mark where even the least is too large.
 */
export function fitted(
  text: string,
  { width, size, least, face }: { width: Metre; size: Metre; least: Metre; face: Face },
): { readonly text: string; readonly size: Metre } {
  const whole = settable(text);
  const natural = widthOf(whole, { size, face });
  if (natural <= width) return { text: whole, size };
  const shrunk = (size * width) / natural;
  if (shrunk >= least) return { text: whole, size: shrunk };
  const characters = [...whole];
  while (characters.length > 1 && widthOf(`${characters.join("")}…`, { size: least, face }) > width) characters.pop();
  return { text: `${characters.join("").trimEnd()}…`, size: least };
}
